#include "rules/set_lines.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace quoin::rules {
namespace {

constexpr Mm unlimited{10'000};

std::string joined(const std::vector<std::string>& words) {
  std::string all;
  for (const std::string& word : words) all += (all.empty() ? "" : ", ") + word;
  return all;
}

}  // namespace

std::string type_words(Mm size) {
  const double points = size.value * points_per_inch / mm_per_inch;
  std::string text = fmt::format("{:.2f}", std::round(points * 4) / 4);
  while (text.ends_with('0')) text.pop_back();
  if (text.ends_with('.')) text.pop_back();
  return text + " pt";
}

Item scaled_item(Item item, double scale, Point at) {
  item.map = then(item.map, then(Affine::scale(scale, scale), Affine::move(at - Point{})));
  // A clip stands in the item's own frame, so it is scaled with it.
  return item;
}

Mm LineSetter::half_line() const {
  return line_of(style_of(work_.look, Voice::text, column_.type)) / 2;
}

void LineSetter::check(const Words& words, const TextStyle& style, const TextFacts& facts) {
  const auto add = [&](Id id, std::string message, std::string hint) {
    report(Diagnostic(id, words.origin, std::move(message)).on("rules").hint(std::move(hint)));
  };
  if (facts.family_missing) {
    return add(Id::text_missing_family, fmt::format("there is no font \"{}\"", style.family),
               facts.nearest_family.empty()
                   ? "put the font's files into fonts/, or name another font"
                   : fmt::format("did you mean \"{}\"?", facts.nearest_family));
  }
  for (const std::string& face : facts.missing_faces) {
    add(Id::text_missing_face, fmt::format("the font has no face \"{}\"", face),
        "put that face's file into fonts/, or do without it");
  }
  if (!facts.missing_glyphs.empty()) {
    add(Id::text_missing_glyph,
        fmt::format("no font of the game can draw {}", joined(facts.missing_glyphs)),
        "put a font that has them into fonts/, or use a [symbol] with a picture");
  }
  if (!facts.other_families.empty()) {
    add(Id::text_other_font,
        fmt::format("some characters are set in {}, since {} does not have them",
                    joined(facts.other_families), style.family),
        "use a font that has them, or write them another way");
  }
}

SetText LineSetter::set(const Words& words, const TextStyle& style, Mm width) {
  TextBlock block{words.runs, style, {width, unlimited}};
  SetText text = work_.typesetter.set(block);
  check(words, style, text.facts());
  return text;
}

Mm LineSetter::natural_width(const Words& words, const TextStyle& style) {
  TextStyle one_line = style;
  one_line.hyphenate = false;
  const TextBlock block{words.runs, one_line, {unlimited, unlimited}};
  return work_.typesetter.set(block).facts().needed.width;
}

Mm LineSetter::base_in_line(const TextStyle& style) {
  for (const Known& one : bases_) {
    if (one.family == style.family && one.weight == style.weight && one.italic == style.italic &&
        one.type == style.type_size) {
      return one.base;
    }
  }
  const TextBlock block{{{"x", false, false, nullptr}}, style, {unlimited, unlimited}};
  const TextFacts facts = work_.typesetter.set(block).facts();
  const Mm base = (line_of(style) - facts.needed.height) / 2 + facts.base_line;
  bases_.push_back({style.family, style.weight, style.italic, style.type_size, base});
  return base;
}

LineSetter::Piece LineSetter::piece(const Words& words, const SetText& text, const TextStyle& style,
                                    int first, int count) {
  Piece piece;
  TextItem item;
  item.block = {words.runs, style, {text.facts().needed.width, text.facts().needed.height}};
  const bool whole = first == 0 && count >= text.facts().lines;
  item.set = whole ? text : some_lines(text, first, count);
  const Mm up = line_of(style) * first + text.facts().base_line - base_in_line(style);
  item.at = {Mm{}, -up};
  piece.lines = item.set.facts().lines;
  piece.width = text.facts().needed.width;
  Item drawn;
  drawn.element = "rules";
  drawn.origin = words.origin;
  drawn.what = std::move(item);
  piece.items.push_back(std::move(drawn));
  for (const PlaceInText& room : places_in(text)) {
    if (room.line < first || room.line >= first + count) continue;
    const auto card = work_.manuscript.cards.find(room.symbol.get());
    if (card == work_.manuscript.cards.end()) continue;
    const double scale = room.to.size.width / work_.game.card.size.width;
    piece.items.push_back(
        scaled_item(work_.cards.at(card->second), scale, {room.to.left(), room.to.top() - up}));
  }
  return piece;
}

std::vector<Slab> LineSetter::lines(const Words& words, const TextStyle& style, Place place) {
  std::vector<Slab> slabs;
  if (words.empty()) return slabs;
  const SetText text = set(words, style, place.width);
  const int count = text.facts().lines;
  if (text.facts().broke_inside_words) {
    report(Diagnostic(Id::text_broke_inside_word, words.origin,
                      fmt::format("a word at {} is longer than its {:.1f} mm line and was broken",
                                  type_words(style.type_size), place.width.value))
               .on("rules")
               .hint("use a shorter word, or put soft hyphens (U+00AD) where it may be divided"));
  }
  for (int i = 0; i < count; ++i) {
    Slab slab;
    slab.height = line_of(style);
    slab.origin = words.origin;
    const bool second_last = i == count - 2, first = i == 0 && count > 1;
    slab.keeps_next = first || second_last;
    for (Item& item : piece(words, text, style, i, 1).items) {
      slab.items.push_back(moved(std::move(item), {place.left, Mm{}}));
    }
    slabs.push_back(std::move(slab));
  }
  return slabs;
}

}  // namespace quoin::rules
