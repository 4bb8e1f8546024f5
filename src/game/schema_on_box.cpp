#include "game/schema_tables.h"

namespace quoin::game {

std::vector<PropertyFacts> on_box_keys() {
  return {
      {.section = "on-box",
       .key = "panel",
       .type = ValueType::text,
       .example = R"(panel = "front")",
       .meaning =
           "The panel of the box that the element is drawn on, as it is read on the closed box. "
           "The element's `at`, `size` and `inset` are measured from the panel; without them a "
           "text fills the panel up to the safe distance from its edges, pictures and shapes fill "
           "it to the end of the bleed, groups and repeats to its edges. A tuck carton has "
           "`front`, `right`, `back`, `left`, `top lid` and `bottom lid`; a wrong name is answered "
           "with all that the box has."},
      {.section = "on-box",
       .key = "panels",
       .type = ValueType::texts,
       .example = R"(panels = ["left", "front", "right", "back"])",
       .meaning =
           "Instead of `panel`: several panels, side by side from left to right or from top to "
           "bottom as they are read, which one element covers round the corners without a break."},
      {.section = "on-box",
       .key = "side",
       .type = ValueType::word,
       .words = {"outside", "inside"},
       .fallback = R"("outside")",
       .example = R"(side = "inside")",
       .meaning = "Which side of the board is printed."},
  };
}

}  // namespace quoin::game
