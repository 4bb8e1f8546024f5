#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "pieces/card/check_parts.h"

namespace quoin::pieces {
namespace {

/// The code point of a UTF-8 character, for those that a screen cannot show either.
unsigned code_point(std::string_view character) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(character[i]); };
  if (character.empty()) return 0;
  if (byte(0) < 0x80) return byte(0);
  const unsigned extra = byte(0) >= 0xf0 ? 3 : byte(0) >= 0xe0 ? 2 : 1;
  unsigned code = byte(0) & (0x3fU >> extra);
  for (std::size_t i = 1; i <= extra && i < character.size(); ++i) {
    code = code << 6 | (byte(i) & 0x3fU);
  }
  return code;
}

std::string named(const std::vector<std::string>& characters) {
  constexpr std::size_t shown = 6;
  std::vector<std::string> words;
  for (std::size_t i = 0; i < std::min(shown, characters.size()); ++i) {
    words.push_back(fmt::format("{} (U+{:04X})", characters[i], code_point(characters[i])));
  }
  if (characters.size() > shown) {
    words.push_back(fmt::format("{} more", characters.size() - shown));
  }
  return listed(words);
}

void check_length(const Inspection& inspection, const Leaf& leaf, const TextFacts& facts) {
  if (facts.fits) return;
  const TextItem& text = *leaf.text();
  const Size box = text.block.box;
  const double too_high = facts.needed.height / std::max(box.height, epsilon);
  const double too_wide = facts.needed.width / std::max(box.width, epsilon);
  const bool is_height = too_high >= too_wide;
  const Mm needed = is_height ? facts.needed.height : facts.needed.width;
  const Mm offered = is_height ? box.height : box.width;
  const double kept = offered / std::max(needed, epsilon);
  const int share = static_cast<int>(std::ceil((1 - std::clamp(kept, 0.0, 1.0)) * 100));
  inspection
      .report(
          Id::card_text_too_long, leaf,
          fmt::format("the text needs {} of {} at {}; its box has {}", in_mm(needed),
                      is_height ? "height" : "width", in_points(facts.type_size), in_mm(offered)))
      .detail("words would run over what lies next to them")
      .hint(fmt::format("shorten it by about {} %, or make the box {} {}", std::clamp(share, 1, 99),
                        in_mm(needed - offered), is_height ? "higher" : "wider"));
  const Mm smaller = facts.type_size * (std::sqrt(kept) * 0.98);
  if (is_height && smaller >= inspection.limits.smallest_type &&
      text.block.style.smallest_size >= text.block.style.type_size - epsilon) {
    inspection.found.back().hint(fmt::format("or let the type shrink: minimum = {}",
                                             plain(std::floor(points(smaller) * 2) / 2, 1)));
  }
}

void check_family(const Inspection& inspection, const Leaf& leaf, const TextFacts& facts) {
  const std::string& family = leaf.text()->block.style.family;
  if (facts.family_missing) {
    inspection.report(Id::text_missing_family, leaf, fmt::format("there is no font \"{}\"", family))
        .detail("the text would be set in another font and run to another length")
        .hint(facts.nearest_family.empty()
                  ? "put the font's files into fonts/, or name another font"
                  : fmt::format("did you mean \"{}\"?", facts.nearest_family));
    return;  // what follows is only a consequence
  }
  for (const std::string& face : facts.missing_faces) {
    inspection.report(Id::text_missing_face, leaf, fmt::format("the font has no face \"{}\"", face))
        .detail("the nearest face is printed instead, so the words are not set apart as meant")
        .hint("put that face's file into fonts/, or do without it");
  }
  if (!facts.other_families.empty()) {
    inspection
        .report(Id::text_other_font, leaf,
                fmt::format("some characters are set in {}, since {} does not have them",
                            listed(facts.other_families), family))
        .detail("they may look like strangers in the line")
        .hint("use a font that has them, or write them another way");
  }
}

void check_glyphs(const Inspection& inspection, const Leaf& leaf, const TextFacts& facts) {
  if (facts.missing_glyphs.empty()) return;
  inspection
      .report(Id::text_missing_glyph, leaf,
              fmt::format("no font of the game can draw {}", named(facts.missing_glyphs)))
      .detail("an empty box would be printed in place of each")
      .hint("put a font that has them into fonts/, or use a [symbol] with a picture");
}

void check_words(const Inspection& inspection, const Leaf& leaf, const TextFacts& facts) {
  if (!facts.broke_inside_words) return;
  inspection
      .report(Id::text_broke_inside_word, leaf,
              fmt::format("a word at {} is longer than its {} line and was broken",
                          in_points(facts.type_size), in_mm(leaf.text()->block.box.width)))
      .detail("it goes on in the next line without a hyphen")
      .hint("make the box wider or the type smaller, or say hyphenate = true");
}

void check_division(const Inspection& inspection, const Leaf& leaf, const TextFacts& facts) {
  if (!facts.hyphenation_missing) return;
  inspection
      .report(Id::text_no_hyphenation, leaf,
              fmt::format("words in the language \"{}\" cannot be divided here",
                          leaf.text()->block.style.language))
      .detail("lines break between words only, so some may stay short")
      .hint("put soft hyphens (U+00AD) where long words may be divided");
}

}  // namespace

void check_setting(const Inspection& inspection) {
  for (const Leaf& leaf : inspection.leaves) {
    if (leaf.text() == nullptr) continue;
    const TextFacts& facts = leaf.text()->set.facts();
    check_length(inspection, leaf, facts);
    check_family(inspection, leaf, facts);
    check_glyphs(inspection, leaf, facts);
    check_words(inspection, leaf, facts);
    check_division(inspection, leaf, facts);
  }
}

}  // namespace quoin::pieces
