#include "pack/sheet_foot.h"

#include "media/text.h"
#include "pack/net_lines.h"
#include "sheets/slug.h"

namespace quoin::pack {
namespace {

constexpr Mm key_type{2.5}, foot_line{4}, sample_gap{1.5}, between_entries{5};
/// Of the type size; English in the house face takes 0.44 to 0.46, so this leaves some room.
constexpr double letter_width = 0.52;

Item words_from(const std::string& text, Point left, Mm width, Mm size) {
  WordsLook look;
  look.type_size = size;
  look.align = TextAlign::left;
  return words_item(text, left + Vec{width / 2, Mm{}}, {width, foot_line}, look);
}

Mm width_of(const KeyEntry& entry) {
  const double letters = static_cast<double>(entry.words.size()) * letter_width;
  return sample_width + sample_gap + key_type * letters + between_entries;
}

}  // namespace

std::vector<Item> sheet_foot(Rect strip, const std::string& words,
                             const std::vector<KeyEntry>& key) {
  std::vector<Item> items;
  items.push_back(
      words_from(words, strip.at + Vec{Mm{}, foot_line / 2}, strip.size.width, Mm{2.7}));
  Mm wanted;
  for (const KeyEntry& entry : key) wanted = wanted + width_of(entry);
  const double squeeze = wanted > strip.size.width ? strip.size.width / wanted : 1;
  Point at = strip.at + Vec{Mm{}, foot_line * 1.5 + Mm{0.4}};
  for (const KeyEntry& entry : key) {
    for (Item item : entry.sample) {
      item.map = then(item.map, Affine::move(at - Point{}));
      items.push_back(std::move(item));
    }
    const Mm width = width_of(entry) * squeeze;
    const Mm from = sample_width + sample_gap;
    items.push_back(
        words_from(entry.words, at + Vec{from, Mm{}}, width - from - sample_gap, key_type));
    at = at + Vec{width, Mm{}};
  }
  const sheets::SlugRow row{
      Affine::move({strip.left(), strip.bottom() - sheets::slug_row - Mm{0.3}}), strip.size.width};
  for (Item& item : sheets::measuring_bar(row, house_family)) items.push_back(std::move(item));
  return items;
}

}  // namespace quoin::pack
