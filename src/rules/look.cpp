#include "rules/look.h"

#include "pieces/card/element.h"

namespace quoin::rules {
namespace {

constexpr double usual_leading = 1.34;

std::optional<TextStyle> style_named(const pieces::Studio& studio, const std::string& name,
                                     Diagnostics& found) {
  const game::Table* table = name.empty() ? nullptr : studio.style(name);
  if (table == nullptr) return std::nullopt;
  const game::Card no_card;
  const pieces::Sitting sitting{studio, no_card, "rules", found};
  const pieces::Properties properties(sitting, *table, name);
  TextStyle style = pieces::text_style(properties, {});
  if (!properties.has("leading")) style.leading = usual_leading;
  style.vertical = VerticalAlign::top;
  style.strokes.clear();
  if (!std::holds_alternative<Colour>(style.fill)) style.fill = Paint{black};
  return style;
}

TextStyle usual_text(const pieces::Studio& studio) {
  TextStyle style;
  style.family = house_family;
  style.leading = usual_leading;
  style.fill = Paint{Colour{0.08, 0.08, 0.1, 1}};
  style.language = studio.game().language;
  return style;
}

Colour colour_of(const TextStyle& style) {
  const Colour* colour = std::get_if<Colour>(&style.fill);
  return colour != nullptr ? *colour : black;
}

}  // namespace

Look look_of(const pieces::Studio& studio, const game::RulesWishes& wishes, Diagnostics& found) {
  Look look;
  look.text = style_named(studio, wishes.text_style, found).value_or(usual_text(studio));
  look.text.hyphenate = true;
  if (look.text.align != TextAlign::justify && look.text.align != TextAlign::start) {
    look.text.align = TextAlign::start;
  }
  if (look.text.leading < 1.2) look.text.leading = 1.2;
  look.heading = look.text;
  look.heading.weight = 700;
  look.heading.italic = false;
  look.heading = style_named(studio, wishes.heading_style, found).value_or(look.heading);
  look.heading.align = TextAlign::start;
  look.heading.hyphenate = false;
  look.heading.paragraph_gap = 0;
  look.heading.language = look.text.language;
  look.text.paragraph_gap = 0;
  look.accent = colour_of(look.heading);
  if (!wishes.accent.empty()) {
    look.accent = studio.colour(wishes.accent).value_or(look.accent);
  }
  return look;
}

TextStyle style_of(const Look& look, Voice voice, Mm type) {
  const bool is_heading =
      voice == Voice::title || voice == Voice::heading || voice == Voice::small_heading;
  TextStyle style = is_heading ? look.heading : look.text;
  double size = 1;
  switch (voice) {
    case Voice::title:
      size = 2.0;
      style.leading = 1.1;
      break;
    case Voice::heading:
      size = 1.3;
      style.leading = 1.16;
      break;
    case Voice::small_heading:
      size = 1.05;
      style.leading = 1.2;
      break;
    case Voice::table_head:
      style.weight = std::max(style.weight, 700);
      style.fill = look.heading.fill;
      [[fallthrough]];
    case Voice::table:
      size = 0.94;
      style.leading = std::min(style.leading, 1.26);
      break;
    case Voice::caption:
      size = 0.88;
      style.italic = !style.italic;
      break;
    case Voice::credits:
    case Voice::folio:
      size = 0.8;
      break;
    case Voice::text:
      break;
  }
  style.type_size = style.smallest_size = type * size;
  return style;
}

}  // namespace quoin::rules
