#include "rules/count.h"

#include <fmt/format.h>

#include <charconv>

namespace quoin::rules {
namespace {

std::string_view without_blanks(std::string_view text) {
  while (!text.empty() && (text.front() == ' ' || text.front() == '\t')) text.remove_prefix(1);
  while (!text.empty() && (text.back() == ' ' || text.back() == '\t')) text.remove_suffix(1);
  return text;
}

std::vector<std::string_view> parted(std::string_view text,
                                     std::initializer_list<std::string_view> marks) {
  std::vector<std::string_view> parts;
  std::size_t from = 0;
  for (std::size_t at = 0; at < text.size();) {
    std::size_t skip = 0;
    for (const std::string_view mark : marks) {
      if (skip == 0 && text.substr(at).starts_with(mark)) skip = mark.size();
    }
    if (skip > 0) {
      parts.push_back(without_blanks(text.substr(from, at - from)));
      from = at + skip;
    }
    at += std::max<std::size_t>(skip, 1);
  }
  parts.push_back(without_blanks(text.substr(from)));
  return parts;
}

std::optional<int> whole_number(std::string_view text) {
  int number = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  const bool whole = error == std::errc{} && end == text.data() + text.size() && number >= 0;
  return whole ? std::optional(number) : std::nullopt;
}

Diagnostic not_understood(std::string_view written, const Origin& where, std::string why) {
  return Diagnostic(Id::rules_bad_count, where,
                    fmt::format("{{{}}} cannot be counted: {}", written, why))
      .hint("write it like {count:suit=shell} or {count:suit=shell,rank=1 or 2}");
}

/// True when cards can be asked for that name.
bool is_known(const game::Game& game, const std::string& name) {
  static const game::Card none;
  return game::look_up(game, game.cards.empty() ? none : game.cards.front(), name).has_value();
}

Diagnostic unknown_column(const game::Game& game, const std::string& name, const Origin& where) {
  Diagnostic problem(Id::rules_unknown_column, where,
                     fmt::format("the card list has no column {}", name));
  std::vector<std::string> known{"suit", "deck", "layout"};
  for (const game::Text& column : game.columns) known.push_back(column.text);
  if (const auto meant = game::nearest(name, known)) {
    return problem.hint(fmt::format("did you mean {}?", *meant));
  }
  return problem.hint("the columns stand in the first line of cards.csv");
}

}  // namespace

Result<Count> read_count(const game::Game& game, std::string_view written, const Origin& where) {
  Count count;
  std::string_view rest = without_blanks(written.substr(std::min<std::size_t>(5, written.size())));
  if (const std::size_t is = rest.rfind("is ");
      is != std::string_view::npos && (is == 0 || rest[is - 1] == ' ')) {
    count.stated = whole_number(without_blanks(rest.substr(is + 3)));
    if (!count.stated) return not_understood(written, where, "after \"is\" a number is needed");
    rest = without_blanks(rest.substr(0, is));
  }
  if (rest.empty()) return count;
  if (rest.front() != ':') return not_understood(written, where, "after \"count\" a : is needed");
  for (const std::string_view one : parted(rest.substr(1), {",", " and "})) {
    const std::size_t equals = one.find('=');
    if (equals == std::string_view::npos) {
      return not_understood(written, where, fmt::format("\"{}\" has no =", one));
    }
    game::Condition condition{std::string(without_blanks(one.substr(0, equals))), {}, where};
    if (!is_known(game, condition.column)) return unknown_column(game, condition.column, where);
    for (const std::string_view value : parted(one.substr(equals + 1), {"|", " or "})) {
      condition.values.emplace_back(value);
    }
    count.conditions.push_back(std::move(condition));
  }
  return count;
}

int cards_in(const game::Game& game, const Count& count) {
  int cards = 0;
  for (const game::Card& card : game.cards) {
    if (game::holds(game, card, count.conditions)) cards += card.copies;
  }
  return cards;
}

}  // namespace quoin::rules
