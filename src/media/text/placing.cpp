#include "media/text/placing.h"

#include <fmt/format.h>
#include <pango/pangofc-font.h>

#include <algorithm>
#include <set>

namespace quoin {
namespace {

/// How far right of the box's left edge a line begins.
Mm line_start(const PangoLayoutLine* line, TextAlign align, Mm box_width, Mm line_width) {
  const Mm room = box_width - line_width;
  const bool right_to_left = pango_layout_line_get_resolved_direction(
                                 const_cast<PangoLayoutLine*>(line)) == PANGO_DIRECTION_RTL;
  switch (align) {
    case TextAlign::left:
      return Mm{0};
    case TextAlign::centre:
      return room / 2;
    case TextAlign::right:
      return room;
    case TextAlign::end:
      return right_to_left ? Mm{0} : room;
    default:
      return right_to_left ? room : Mm{0};  // start; justify's last line
  }
}

Rect rect_at(Point at, const PangoRectangle& r) {
  return {at + Vec{from_pango(r.x), from_pango(r.y)}, {from_pango(r.width), from_pango(r.height)}};
}

/// The strokes lie half outside the letters.
Mm stroke_reach(const std::vector<Stroke>& strokes) {
  Mm reach;
  for (const Stroke& stroke : strokes) reach = std::max(reach, stroke.width / 2);
  return reach;
}

std::shared_ptr<const InlineSymbol> owner_of(const void* symbol, const TextBlock& block) {
  for (const TextRun& run : block.runs)
    if (run.symbol.get() == symbol) return run.symbol;
  return nullptr;
}

/// The symbols of a line, at the places pango kept for them.
void place_symbols(const PlacedLine& line, int index, const TextBlock& block,
                   std::vector<PlacedSymbol>& symbols) {
  double x = 0;
  for (GSList* node = line.line->runs; node; node = node->next) {
    const auto* const run = static_cast<PangoGlyphItem*>(node->data);
    for (GSList* more = run->item->analysis.extra_attrs; more; more = more->next) {
      const auto* const attribute = static_cast<PangoAttribute*>(more->data);
      if (attribute->klass->type != PANGO_ATTR_SHAPE) continue;
      const auto* const shape = reinterpret_cast<const PangoAttrShape*>(attribute);
      const Point at = line.at + Vec{from_pango(x), Mm{0}};
      symbols.push_back({owner_of(shape->data, block), rect_at(at, shape->logical_rect), index});
    }
    x += pango_glyph_string_get_width(run->glyphs);
  }
}

}  // namespace

void place(Broken broken, const TextBlock& block, SetText::State& state, TextFacts& facts) {
  const Mm room = block.box.height - broken.needed.height;
  const Mm top = block.style.vertical == VerticalAlign::top      ? Mm{0}
                 : block.style.vertical == VerticalAlign::middle ? room / 2
                                                                 : room;
  const Mm reach = stroke_reach(block.style.strokes);
  std::size_t index = 0;
  bool any_ink = false;
  GSList* node = pango_layout_get_lines_readonly(broken.layout.get());
  for (; node; node = node->next, ++index) {
    auto* const line = static_cast<PangoLayoutLine*>(node->data);
    PangoRectangle ink, logical;
    pango_layout_line_get_extents(line, &ink, &logical);
    const Mm x = line_start(line, block.style.align, block.box.width, from_pango(logical.width));
    const Point at{x, top + broken.base_lines[index]};
    state.lines.push_back({{pango_layout_line_ref(line), pango_layout_line_unref}, at});
    place_symbols(state.lines.back(), static_cast<int>(index), block, state.symbols);
    Rect rect = rect_at(at, ink);
    if (ink.width > 0 && ink.height > 0) {
      rect = grown(rect, reach);
      facts.ink = any_ink ? covering(facts.ink, rect) : rect;
      any_ink = true;
    }
    facts.line_ink.push_back(rect);
  }
  facts.lines = static_cast<int>(state.lines.size());
  state.layout = std::move(broken.layout);
}

namespace {

std::string named_character(gunichar c) {
  char utf8[7] = {};
  g_unichar_to_utf8(c, utf8);
  return fmt::format("U+{:04X} {}", static_cast<unsigned>(c), utf8);
}

void remember(std::vector<std::string>& list, const std::string& entry) {
  if (std::find(list.begin(), list.end(), entry) == list.end()) list.push_back(entry);
}

bool is_shape(const PangoGlyphItem* run) {
  for (GSList* more = run->item->analysis.extra_attrs; more; more = more->next)
    if (static_cast<PangoAttribute*>(more->data)->klass->type == PANGO_ATTR_SHAPE) return true;
  return false;
}

/// The family's name when the font is not of `family`, else "".
std::string other_family(PangoFont* font, const std::string& family) {
  const std::vector<std::string> names =
      family_names(pango_fc_font_get_pattern(PANGO_FC_FONT(font)));
  const bool same = std::any_of(names.begin(), names.end(), [&](const std::string& name) {
    return folded(name) == folded(family);
  });
  return same || names.empty() ? "" : names.front();
}

/// True when a glyph of the run leaves ink or stands for a character no font has.
bool reports_glyphs(const PangoGlyphItem* run, TextFacts& facts) {
  bool draws = false;
  for (int i = 0; i < run->glyphs->num_glyphs; ++i) {
    const PangoGlyph glyph = run->glyphs->glyphs[i].glyph;
    if (glyph == PANGO_GLYPH_EMPTY) continue;
    if (glyph & PANGO_GLYPH_UNKNOWN_FLAG) {
      const gunichar c = glyph & ~PANGO_GLYPH_UNKNOWN_FLAG;
      remember(facts.missing_glyphs, named_character(c));
    } else {
      draws = true;
    }
  }
  return draws;
}

}  // namespace

void report_letters(const SetText::State& state, const std::string& family, TextFacts& facts) {
  std::set<PangoFont*> seen;
  for (const PlacedLine& line : state.lines) {
    for (GSList* node = line.line->runs; node; node = node->next) {
      const auto* const run = static_cast<PangoGlyphItem*>(node->data);
      PangoFont* const font = run->item->analysis.font;
      if (is_shape(run) || !reports_glyphs(run, facts) || !font) continue;
      if (!seen.insert(font).second) continue;
      const std::string other = other_family(font, family);
      if (!other.empty()) remember(facts.other_families, other);
    }
  }
}

std::vector<std::size_t> divisions_used(const Broken& broken,
                                        const std::vector<std::size_t>& divisions) {
  constexpr std::size_t soft_hyphen_bytes = 2;
  std::vector<std::size_t> used;
  std::size_t passed = 0;  // divisions before the line's beginning
  for (GSList* node = pango_layout_get_lines_readonly(broken.layout.get()); node;
       node = node->next) {
    const auto* const line = static_cast<PangoLayoutLine*>(node->data);
    const auto start = static_cast<std::size_t>(line->start_index);
    const auto begins_after = [&](std::size_t i) {
      return divisions[i] + (i + 1) * soft_hyphen_bytes;
    };
    while (passed < divisions.size() && begins_after(passed) < start) ++passed;
    if (passed < divisions.size() && begins_after(passed) == start)
      used.push_back(divisions[passed]);
  }
  return used;
}

}  // namespace quoin
