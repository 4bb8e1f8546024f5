#include "guide/setting.h"

#include <algorithm>

namespace quoin::guide {
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
  std::size_t from = 0;
  std::vector<std::size_t> breaks = breaks_of(runs, true);
  while (left > most) {
    const int lines = left - most == 1 ? most - 1 : most;  // never leave one line alone
    const auto too_long = std::partition_point(
        std::upper_bound(breaks.begin(), breaks.end(), from), breaks.end(), [&](std::size_t to) {
          return set(between_bytes(runs, from, to), style, width).lines <= lines;
        });
    std::size_t to = *std::prev(too_long);
    const std::vector<std::size_t> spaces = breaks_of(runs, false);
    const auto space = std::upper_bound(spaces.begin(), spaces.end(), to);
    if (space != spaces.begin() && *std::prev(space) > from) {
      const std::size_t word = *std::prev(space);
      if (set(between_bytes(runs, from, word), style, width).lines == lines) to = word;
    }
    parts.push_back(set(between_bytes(runs, from, to), style, width));
    from = to;
    left = set(between_bytes(runs, from, breaks.back()), style, width).lines;
  }
  parts.push_back(set(between_bytes(runs, from, breaks.back()), style, width));
  return parts;
}

}  // namespace quoin::guide
