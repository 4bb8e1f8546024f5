#include "game/edit/toml_items.h"

#include <algorithm>
#include <optional>

#include "game/words.h"

namespace quoin::game {
namespace {

bool is_blank_text(std::string_view text) { return trimmed(text).empty(); }

std::size_t skip_blanks(std::string_view text, std::size_t at) {
  while (at < text.size() && (text[at] == ' ' || text[at] == '\t')) ++at;
  return at;
}

/// Nothing else stands on the lines of the item but a comma and a remark.
bool is_alone_on_line(std::string_view text, Stretch item) {
  const std::size_t start = line_start(text, item.from);
  if (!is_blank_text(text.substr(start, item.from - start))) return false;
  std::size_t at = skip_blanks(text, item.to);
  if (at < text.size() && text[at] == ',') at = skip_blanks(text, at + 1);
  return at < text.size() && (text[at] == '#' || text[at] == '\r' || text[at] == '\n');
}

/// Where the comma stands that follows an item, blanks, line ends and remarks between.
std::optional<std::size_t> comma_after(std::string_view text, const Written& holder,
                                       std::size_t at) {
  while (at < holder.at.to) {
    const char c = text[at];
    if (c == ',') return at;
    if (c == '#')
      at = next_line(text, at);
    else if (c == ' ' || c == '\t' || c == '\r' || c == '\n')
      ++at;
    else
      break;
  }
  return std::nullopt;
}

std::string_view indent_of(std::string_view text, Stretch item) {
  const std::size_t start = line_start(text, item.from);
  return text.substr(start, item.from - start);
}

/// What parts the items of a list on one line: its own comma and blanks.
std::string separator_of_items(std::string_view text, const std::vector<Stretch>& items) {
  if (items.size() < 2) return ", ";
  const std::string_view between = part(text, {items[0].to, items[1].from});
  const bool plain = between.find_first_not_of(" \t,") == std::string_view::npos;
  return plain ? std::string(between) : ", ";
}

std::vector<Splice> first_item(std::string_view text, const Written& holder,
                               const std::string& item) {
  const Stretch inside{holder.at.from + 1, holder.at.to - 1};
  if (!is_blank_text(part(text, inside))) return {{{inside.to, inside.to}, item}};
  const bool is_table = holder.kind == Written::Kind::table;
  return {{inside, is_table ? " " + item + " " : item}};
}

std::vector<Splice> last_item(std::string_view text, const Written& holder,
                              const std::vector<Stretch>& items, const std::string& item) {
  const Stretch last = items.back();
  const std::optional<std::size_t> comma = comma_after(text, holder, last.to);
  const std::size_t below = next_line(text, last.to);
  if (is_alone_on_line(text, last) && (!comma || *comma < below)) {
    const std::string line = std::string(indent_of(text, last)) + item;
    const std::string end(line_end_of(text));
    if (comma) return {{{below, below}, line + "," + end}};
    return {{{last.to, last.to}, ","}, {{below, below}, line + end}};
  }
  if (comma) return {{{*comma + 1, *comma + 1}, " " + item + ","}};
  return {{{last.to, last.to}, separator_of_items(text, items) + item}};
}

}  // namespace

std::vector<Stretch> item_places(const Written& holder) {
  std::vector<Stretch> places;
  for (const Written& item : holder.items) places.push_back(item.at);
  for (const WrittenEntry& entry : holder.entries) places.push_back(entry.at);
  return places;
}

std::vector<Splice> put_item(std::string_view text, const Written& holder, std::size_t index,
                             const std::string& item) {
  const std::vector<Stretch> items = item_places(holder);
  if (items.empty()) return first_item(text, holder, item);
  if (index >= items.size()) return last_item(text, holder, items, item);
  const Stretch next = items[index];
  if (is_alone_on_line(text, next)) {
    const std::size_t start = line_start(text, next.from);
    const std::string line = std::string(indent_of(text, next)) + item + ",";
    return {{{start, start}, line + std::string(line_end_of(text))}};
  }
  return {{{next.from, next.from}, item + separator_of_items(text, items)}};
}

std::vector<Splice> take_item(std::string_view text, const Written& holder, std::size_t index) {
  const std::vector<Stretch> items = item_places(holder);
  const Stretch item = items[index];
  const std::optional<std::size_t> comma = comma_after(text, holder, item.to);
  if (items.size() == 1) {
    const Stretch inside{holder.at.from + 1, holder.at.to - 1};
    const std::size_t end = comma ? *comma + 1 : item.to;
    const bool all = is_blank_text(part(text, {inside.from, item.from})) &&
                     is_blank_text(part(text, {end, inside.to}));
    if (all) return {{inside, ""}};
    if (!is_alone_on_line(text, item)) return {{{item.from, end}, ""}};
  }
  const std::size_t below = next_line(text, item.to);
  if (is_alone_on_line(text, item) && (!comma || *comma < below)) {
    return {{{line_start(text, item.from), below}, ""}};
  }
  if (index + 1 < items.size()) return {{{item.from, items[index + 1].from}, ""}};
  if (index == 0) return {{{item.from, comma ? *comma + 1 : item.to}, ""}};
  const Stretch before{items[index - 1].to, item.from};
  const bool remarked = part(text, before).find('#') != std::string_view::npos;
  if (remarked) return {{{item.from, comma ? *comma + 1 : item.to}, ""}};
  return {{{before.from, item.to}, ""}};
}

}  // namespace quoin::game
