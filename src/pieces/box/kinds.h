#pragma once
#include <string_view>
#include <vector>

#include "fold/fold.h"
#include "pieces/box/plan.h"

namespace quoin::pieces {

/// A kind of box. To add one: a file that draws it, a line in kinds.cpp, and its word in the schema
/// ([box] kind).
struct BoxKind {
  std::string_view word;   ///< as it stands in game.toml
  std::string_view title;  ///< "tuck carton"
  /// The nets, hinges and order of folding. Its walls are `plan.inside` apart; what lies inside of
  /// them is found by measuring the folded model.
  fold::Model (*draw)(const BoxPlan& plan);
  /// The least room through the pile that it can be drawn for.
  Mm (*least_depth)(const BoxPlan& plan);
  /// Whether it has a net that can be drawn in two parts (`BoxPlan::parts`); others pay no heed.
  enum class InTwo { never, possible } in_two = InTwo::never;
};

[[nodiscard]] const std::vector<BoxKind>& box_kinds();
/// The kind of that word, or null.
[[nodiscard]] const BoxKind* find_box_kind(std::string_view word);

}  // namespace quoin::pieces
