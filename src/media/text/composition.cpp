#include "media/text/composition.h"

#include <hb.h>

#include <algorithm>

#include "media/text/letter_case.h"

namespace quoin {
namespace {

constexpr int bold_weight = 700;
constexpr int lightest_bold = 600;

std::string weight_name(int weight) {
  switch (weight) {
    case 100:
      return "thin";
    case 200:
      return "extra light";
    case 300:
      return "light";
    case 400:
      return "regular";
    case 500:
      return "medium";
    case 600:
      return "semibold";
    case 700:
      return "bold";
    case 800:
      return "extra bold";
    case 900:
      return "black";
    default:
      return "weight " + std::to_string(weight);
  }
}

/// The weight of the upright or italic face nearest to `weight`, or nothing without such a face.
std::optional<int> nearest_weight(const std::vector<Face>& faces, int weight, bool italic) {
  std::optional<int> best;
  for (const Face& face : faces) {
    if (face.italic != italic) continue;
    const int offered = std::clamp(weight, face.lightest, face.heaviest);
    const bool nearer = !best || std::abs(offered - weight) < std::abs(*best - weight);
    if (nearer) best = offered;
  }
  return best;
}

bool serves(int offered, int asked, bool by_markup) {
  if (by_markup) return offered >= lightest_bold;
  return asked == 400 || std::abs(offered - asked) < 50;
}

std::string face_name(int weight, bool italic) {
  if (!italic) return weight_name(weight);
  return weight == 400 ? "italic" : weight_name(weight) + " italic";
}

}  // namespace

FaceChoice choose_face(const std::vector<Face>& faces, const TextStyle& style, const TextRun& run) {
  const int weight = run.bold ? std::max(style.weight, bold_weight) : style.weight;
  // Emphasis inside italics goes back to upright letters: common practice, no source.
  const bool italic = style.italic != run.italic;
  const std::optional<int> exact = nearest_weight(faces, weight, italic);
  if (exact && serves(*exact, weight, run.bold)) return {*exact, italic, ""};
  if (!run.bold && !italic && style.weight == 400) {  // a family of italics only
    return {nearest_weight(faces, weight, true).value_or(weight), true, ""};
  }
  const std::optional<int> upright = nearest_weight(faces, style.weight, false);
  const std::string missing = face_name(weight, italic);
  if (upright) return {*upright, false, missing};
  return {nearest_weight(faces, style.weight, true).value_or(400), true, missing};
}

Composition with_soft_hyphens(const Composition& from, const std::vector<std::size_t>& places) {
  constexpr std::string_view soft_hyphen = "\u00AD";
  Composition to = from;
  to.text.clear();
  std::size_t copied = 0;
  for (const std::size_t place : places) {
    to.text.append(from.text, copied, place - copied).append(soft_hyphen);
    copied = place;
  }
  to.text.append(from.text, copied);
  const auto moved = [&](std::size_t offset) {
    const auto before = std::lower_bound(places.begin(), places.end(), offset) - places.begin();
    return offset + static_cast<std::size_t>(before) * soft_hyphen.size();
  };
  for (Composition::Stretch& stretch : to.stretches) {
    stretch.begin = moved(stretch.begin);
    stretch.end = moved(stretch.end);
  }
  return to;
}

namespace {

void put(PangoAttrList* list, PangoAttribute* attribute, std::size_t begin, std::size_t end) {
  attribute->start_index = static_cast<guint>(begin);
  attribute->end_index = static_cast<guint>(end);
  pango_attr_list_insert(list, attribute);
}

struct SymbolSize {
  Mm width, height, drop;
};

SymbolSize size_of(const InlineSymbol& symbol, Mm type_size) {
  const Mm height = type_size * symbol.scale;
  const PictureFacts* facts = symbol.picture ? &symbol.picture->facts() : nullptr;
  const bool known = facts && facts->width > 0 && facts->height > 0;
  const double own = symbol.picture ? 1 : std::clamp(symbol.proportion, 0.01, 100.0);
  const double proportion = known ? std::clamp(facts->width / facts->height, 0.01, 100.0) : own;
  return {height * proportion, height, type_size * symbol.drop};
}

PangoAttribute* shape_of(const InlineSymbol& symbol, Mm type_size) {
  const SymbolSize size = size_of(symbol, type_size);
  const PangoRectangle room{0, -pango_units(size.height - size.drop), pango_units(size.width),
                            pango_units(size.height)};
  auto* data = const_cast<InlineSymbol*>(&symbol);  // only handed back to us, never written
  return pango_attr_shape_new_with_data(&room, &room, data, nullptr, nullptr);
}

AttributesPtr attributes_of(const Composition& composition, const TextStyle& style, Mm type_size) {
  AttributesPtr list{pango_attr_list_new()};
  const std::size_t all = composition.text.size();
  if (style.letter_spacing != 0) {
    const int extra = pango_units(type_size * (style.letter_spacing / 1000));
    put(list.get(), pango_attr_letter_spacing_new(extra), 0, all);
  }
  if (composition.small_capitals) put(list.get(), pango_attr_font_features_new("smcp=1"), 0, all);
  if (!style.hyphenate) put(list.get(), pango_attr_insert_hyphens_new(FALSE), 0, all);
  for (const Composition::Stretch& stretch : composition.stretches) {
    PangoAttrList* const to = list.get();
    if (stretch.symbol) put(to, shape_of(*stretch.symbol, type_size), stretch.begin, stretch.end);
    const auto weight = static_cast<PangoWeight>(stretch.face.weight);
    put(to, pango_attr_weight_new(weight), stretch.begin, stretch.end);
    const PangoStyle slant = stretch.face.italic ? PANGO_STYLE_ITALIC : PANGO_STYLE_NORMAL;
    put(to, pango_attr_style_new(slant), stretch.begin, stretch.end);
  }
  return list;
}

struct Extents {
  Mm ascent, descent;
};

/// Of the face the style asks for, by the font's own tables.
Extents face_extents(PangoContext* context, const PangoFontDescription* description) {
  const ObjectPtr<PangoFont> font{pango_context_load_font(context, description)};
  hb_font_extents_t extents{};
  if (font) hb_font_get_h_extents(pango_font_get_hb_font(font.get()), &extents);
  return {from_pango(extents.ascender), from_pango(-extents.descender)};
}

/// The size of the tallest and deepest symbols between two bytes.
Extents symbol_extents(const Composition& composition, std::size_t begin, std::size_t end,
                       Mm type_size) {
  Extents extents;
  for (const Composition::Stretch& stretch : composition.stretches) {
    if (!stretch.symbol || stretch.begin < begin || stretch.begin >= end) continue;
    const SymbolSize size = size_of(*stretch.symbol, type_size);
    extents.ascent = std::max(extents.ascent, size.height - size.drop);
    extents.descent = std::max(extents.descent, size.drop);
  }
  return extents;
}

std::size_t begin_of(const PangoLayoutLine* line) {
  return static_cast<std::size_t>(line->start_index);
}
std::size_t end_of(const PangoLayoutLine* line) {
  return static_cast<std::size_t>(line->start_index + line->length);
}

/// Tells of lines, asked in order, whether they begin inside a word.
class WordBreaks {
 public:
  explicit WordBreaks(PangoLayout* layout) : text_(pango_layout_get_text(layout)), at_(text_) {
    places_ = pango_layout_get_log_attrs_readonly(layout, &count_);
  }
  bool inside_a_word(const PangoLayoutLine* line) {
    offset_ += g_utf8_pointer_to_offset(at_, text_ + line->start_index);
    at_ = text_ + line->start_index;
    return !line->is_paragraph_start && offset_ < count_ && !places_[offset_].is_line_break;
  }

 private:
  const char* text_;
  const char* at_;
  glong offset_ = 0;
  const PangoLogAttr* places_ = nullptr;
  int count_ = 0;
};

ObjectPtr<PangoLayout> layout_of(PangoContext* context, const Composition& composition,
                                 const TextBlock& block) {
  ObjectPtr<PangoLayout> layout{pango_layout_new(context)};
  pango_layout_set_text(layout.get(), composition.text.c_str(),
                        static_cast<int>(composition.text.size()));
  pango_layout_set_width(layout.get(), std::max(1, pango_units(block.box.width)));
  pango_layout_set_wrap(layout.get(), PANGO_WRAP_WORD_CHAR);
  pango_layout_set_justify(layout.get(), block.style.align == TextAlign::justify);
  pango_layout_set_auto_dir(layout.get(), block.style.direction == TextDirection::automatic);
  return layout;
}

/// Places base lines and measures the whole; lines are broken already.
void measure(Broken& broken, const Composition& composition, const TextStyle& style, Mm type_size,
             Extents face) {
  PangoLayout* const layout = broken.layout.get();
  WordBreaks breaks(layout);
  Mm base;
  const PangoLayoutLine* last = nullptr;
  for (GSList* node = pango_layout_get_lines_readonly(layout); node; node = node->next) {
    auto* const line = static_cast<PangoLayoutLine*>(node->data);
    if (!last) {
      const Extents symbols = symbol_extents(composition, begin_of(line), end_of(line), type_size);
      base = broken.first_base_line = std::max(face.ascent, symbols.ascent);
    } else {
      base += type_size * style.leading;
      if (line->is_paragraph_start) base += type_size * style.paragraph_gap;
    }
    broken.base_lines.push_back(base);
    broken.broke_inside_words |= breaks.inside_a_word(line);
    PangoRectangle room;
    pango_layout_line_get_extents(line, nullptr, &room);
    broken.needed.width = std::max(broken.needed.width, from_pango(room.width));
    last = line;
  }
  if (!last) return;
  const Extents symbols = symbol_extents(composition, begin_of(last), end_of(last), type_size);
  broken.needed.height = base + std::max(face.descent, symbols.descent);
}

}  // namespace

Broken break_lines(PangoContext* context, const Composition& composition, const TextBlock& block,
                   Mm type_size) {
  Broken broken;
  broken.layout = layout_of(context, composition, block);
  const FontDescriptionPtr description{pango_font_description_new()};
  pango_font_description_set_family(description.get(), composition.family.c_str());
  pango_font_description_set_absolute_size(description.get(), pango_units(type_size));
  pango_font_description_set_weight(description.get(),
                                    static_cast<PangoWeight>(block.style.weight));
  pango_font_description_set_style(description.get(),
                                   block.style.italic ? PANGO_STYLE_ITALIC : PANGO_STYLE_NORMAL);
  pango_layout_set_font_description(broken.layout.get(), description.get());
  const AttributesPtr attributes = attributes_of(composition, block.style, type_size);
  pango_layout_set_attributes(broken.layout.get(), attributes.get());
  measure(broken, composition, block.style, type_size, face_extents(context, description.get()));
  return broken;
}

}  // namespace quoin
