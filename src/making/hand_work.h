#pragma once
#include <string>
#include <vector>

#include "making/cutting.h"

namespace quoin::making {

/// What is left to do by hand when the sheets are cut up.
struct HandStep {
  enum class Kind { punch, crease, cut, glue };
  Kind kind = Kind::punch;
  std::string title;  ///< "Round the corners"
  std::string words;
  int count = 0;  ///< corners, creases, cuts or seams, of all cards or nets together
  int net = -1;   ///< which net of the box it is about; -1: none
};
/// In the order in which it is done: corners; then each net creased, cut out and glued. A net is
/// creased while it still hangs in its sheet, since a rule lies firmly on that.
[[nodiscard]] std::vector<HandStep> hand_steps(const Cutting& cutting);
/// "punch", "crease", "cut", "glue".
[[nodiscard]] std::string_view to_string(HandStep::Kind kind);

/// The usual cautions for blades, a sentence or two each. They defer to the tool's maker and to
/// local rules.
[[nodiscard]] std::vector<std::string> blade_cautions();
/// The same for glue.
[[nodiscard]] std::vector<std::string> glue_cautions();

}  // namespace quoin::making
