#include "scene/setting.h"

#include <algorithm>

namespace quoin {
namespace {

std::vector<TextRun> runs_of(const std::string& words) {
  std::vector<std::string> no_symbols_here;
  return read_markup(words, {}, no_symbols_here);
}

/// Where a text may be taken apart: counted in bytes over all its runs.
std::vector<std::size_t> breaks_of(const std::vector<TextRun>& runs, bool inside_words) {
  std::vector<std::size_t> breaks;
  std::size_t at = 0;
  char before = 'x';
  for (const TextRun& run : runs) {
    for (const char c : run.text) {
      const bool after_space = before == ' ' && c != ' ';
      const bool letter = (static_cast<unsigned char>(c) & 0xC0) != 0x80;
      if (at > 0 && (after_space || (inside_words && letter))) breaks.push_back(at);
      before = c;
      ++at;
    }
  }
  breaks.push_back(at);
  return breaks;
}

/// The runs from one byte up to another, without blanks at the end.
std::vector<TextRun> between_bytes(const std::vector<TextRun>& runs, std::size_t from,
                                   std::size_t to) {
  std::vector<TextRun> part;
  std::size_t at = 0;
  for (const TextRun& run : runs) {
    const std::size_t end = at + run.text.size();
    const std::size_t first = std::max(at, from), last = std::min(end, to);
    if (first < last) {
      part.push_back(run);
      part.back().text = run.text.substr(first - at, last - first);
    }
    at = end;
  }
  while (!part.empty() && part.back().text.ends_with(' ')) part.back().text.pop_back();
  return part;
}

/// The last of the places after `from` for which it is so, when it is so for all up to one: looked
/// for at twice the distance each time, then by halving. At least the first.
template <typename Fits>
std::size_t last_place(const std::vector<std::size_t>& places, std::size_t from, const Fits& fits) {
  const auto first = std::upper_bound(places.begin(), places.end(), from);
  std::ptrdiff_t step = 64;
  while (step < places.end() - first && fits(*(first + step))) step *= 2;
  const auto end = first + std::min(step, places.end() - first);
  const auto beyond = std::partition_point(first, end, fits);
  return beyond == first ? *first : *std::prev(beyond);
}

/// Between words; within one that is longer than all the lines.
template <typename Fits>
std::size_t last_that_fits(const std::vector<std::size_t>& blanks,
                           const std::vector<std::size_t>& letters, std::size_t from,
                           const Fits& fits) {
  const std::size_t word = last_place(blanks, from, fits);
  return fits(word) ? word : last_place(letters, from, fits);
}

}  // namespace

Item moved(Item item, Vec by) {
  item.map = then(item.map, Affine::move(by));
  return item;
}

SetWords Setting::set(const std::vector<TextRun>& runs, const TextStyle& style, Mm width) {
  TextItem text;
  text.block = {runs, style, {width, Mm{10'000}}};
  const bool may_shrink = style.smallest_size < style.type_size;
  if (may_shrink) text.block.box.height = style.type_size * style.leading * 2.4;
  text.set = typesetter_.set(text.block);
  SetWords set;
  const TextFacts& facts = text.set.facts();
  set.width = facts.needed.width;
  set.height = facts.needed.height;
  set.lines = facts.lines;
  set.first_line = facts.type_size * style.leading;
  text.block.box.height = set.height;
  set.item.layer = Layer::art;
  set.item.what = std::move(text);
  return set;
}

SetWords Setting::set(const std::string& words, const TextStyle& style, Mm width) {
  return set(runs_of(words), style, width);
}

std::vector<SetWords> Setting::parts(const std::string& words, const TextStyle& style, Mm width,
                                     int most) {
  const std::vector<TextRun> runs = runs_of(words);
  SetWords whole = set(runs, style, width);
  std::vector<SetWords> parts;
  int left = whole.lines;
  if (left <= most) {
    parts.push_back(std::move(whole));
    return parts;
  }
  // Lines are broken as far to the right as they go, so a text that ends where the k-th line does
  // has the same k lines.
  const std::vector<std::size_t> letters = breaks_of(runs, true), blanks = breaks_of(runs, false);
  std::size_t from = 0;
  while (left > most) {
    const int lines = left - most == 1 ? most - 1 : most;  // never leave one line alone
    const auto fits_in_lines = [&](std::size_t to) {
      return set(between_bytes(runs, from, to), style, width).lines <= lines;
    };
    const std::size_t to = last_that_fits(blanks, letters, from, fits_in_lines);
    parts.push_back(set(between_bytes(runs, from, to), style, width));
    from = to;
    left -= lines;
  }
  parts.push_back(set(between_bytes(runs, from, letters.back()), style, width));
  return parts;
}

}  // namespace quoin
