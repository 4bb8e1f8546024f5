#pragma once
#include "base/diagnostic.h"
#include "pieces/card/studio.h"

namespace quoin::rules {

/// How the rules look, before anybody knows their type size.
struct Look {
  TextStyle text, heading;  ///< their type sizes are set when the size of the text is known
  Colour accent;            ///< of fine rules, bullets and numbers
};

/// From the styles and the colour that [rules] names; without them the house's type in black. What
/// cannot be read is added to `found`.
[[nodiscard]] Look look_of(const pieces::Studio& studio, const game::RulesWishes& wishes,
                           Diagnostics& found);

/// What a piece of text is.
enum class Voice {
  text,
  title,
  heading,
  small_heading,
  table,
  table_head,
  caption,
  credits,
  folio
};

/// The style of a voice when the text has that type size. Sizes and leadings are a scale of ours:
/// title 2, heading 1.3, caption and table 0.92, credits and page numbers 0.8 of the text.
[[nodiscard]] TextStyle style_of(const Look& look, Voice voice, Mm type);

/// The distance of base lines of a style.
[[nodiscard]] constexpr Mm line_of(const TextStyle& style) {
  return style.type_size * style.leading;
}

}  // namespace quoin::rules
