#pragma once
#include <string_view>

namespace quoin::job {

/// How a picture was made from another; its name and words about it follow from that.
enum class MadeBy {
  redrawing,      ///< crab.svg
  straightening,  ///< crab-straight.png
  splitting,      ///< several cards of one photograph: crab-1.png, crab-2.png, …
  cutting_out,    ///< crab-cut-out.png
  recolouring     ///< crab-colours.png, crab-colours.svg
};
/// "redrawn", "straightened", "cut out", "recoloured".
[[nodiscard]] std::string_view done_to_it(MadeBy how);

}  // namespace quoin::job
