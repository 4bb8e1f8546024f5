#pragma once
#include <string>
#include <vector>

#include "game/game.h"
#include "game/placeholders.h"
#include "game/reading.h"

namespace quoin::game {

/// One place at which a layout or a rule asks for a column or another value of a card.
struct NameUse {
  TextPart::Kind kind = TextPart::Kind::name;  ///< name, or open_brace for one that never closes
  std::string name;
  Origin origin;
};

/// All that cards ask for: the placeholders of their layouts and of styles, and the columns of
/// conditions.
[[nodiscard]] std::vector<NameUse> names_used(const Game& game,
                                              const std::vector<LayoutRule>& rules);
/// All that one layout asks for.
[[nodiscard]] std::vector<NameUse> names_used_in(const Layout& layout);

}  // namespace quoin::game
