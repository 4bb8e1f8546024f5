#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <map>

#include "game/card_id.h"
#include "game/csv.h"
#include "game/reading.h"
#include "game/schema_names.h"
#include "game/words.h"

namespace quoin::game {
namespace {

constexpr int most_copies = 999;

/// Turns the rows of cards.csv into cards.
class CardRows {
 public:
  explicit CardRows(Reading& reading) : reading_(reading), game_(reading.game) {
    for (const Suit& suit : game_.suits) suits_.push_back(suit.id);
    for (const Deck& deck : game_.decks) decks_.push_back(deck.id);
    id_ = column(game_, "id");
    suit_ = column(game_, "suit");
    deck_ = column(game_, "deck");
    copies_ = column(game_, "copies");
  }

  void add(Row row) {
    Card card;
    card.number = static_cast<int>(game_.cards.size()) + 1;
    card.cells = std::move(row);
    read_id(card);
    read_suit(card);
    read_deck(card);
    read_copies(card);
    game_.cards.push_back(std::move(card));
  }

 private:
  static const Text* cell(const Card& card, int at) {
    return at < 0 ? nullptr : &card.cells[static_cast<std::size_t>(at)];
  }

  void read_id(Card& card) {
    const Text* asked = cell(card, id_);
    card.origin = asked ? asked->origin : card.cells.front().origin;
    if (!asked) return;
    card.id = std::string(trimmed(asked->text));
    if (card.id.empty()) {
      Diagnostic problem(Id::game_id_missing, card.origin, "this card has no id");
      reading_.found.add(problem.hint("write a short name into the column id"));
    } else if (const std::optional<std::string> fault = id_fault(card.id)) {
      wrong_id(card, *fault);
    } else {
      check_twice(card);
    }
  }

  void wrong_id(const Card& card, const std::string& fault) {
    Diagnostic problem(Id::game_id_spelling, card.origin,
                       fmt::format("the id {} {}", in_quotes(card.id), fault));
    problem.detail(
        "ids become file names: letters a to z, digits, - and _ and . are safe everywhere");
    const std::string better = id_from(card.id);
    if (!better.empty()) problem.hint(fmt::format("write {}", better));
    reading_.found.add(std::move(problem));
  }

  void check_twice(const Card& card) {
    const auto [first, is_new] = seen_.emplace(lower_case(card.id), game_.cards.size());
    if (is_new) return;
    const Card& other = game_.cards[first->second];
    const std::string message =
        other.id == card.id
            ? fmt::format("the id {} is given twice", card.id)
            : fmt::format("the ids {} and {} differ only in capitals", other.id, card.id);
    Diagnostic problem(Id::game_id_twice, card.origin, message);
    problem.detail(fmt::format("the first is at {}", to_string(other.origin)));
    reading_.found.add(problem.hint("give one of the cards another id"));
  }

  void read_suit(Card& card) {
    const Text* asked = cell(card, suit_);
    const std::string name(asked ? trimmed(asked->text) : std::string_view{});
    if (name.empty()) return;
    if (std::find(suits_.begin(), suits_.end(), name) != suits_.end()) {
      card.suit = name;
      return;
    }
    Diagnostic problem = unknown_name(Id::game_unknown_suit, "suit", name, asked->origin, suits_);
    if (suits_.empty()) problem.hint(fmt::format("write [suits.{}] in game.toml", name));
    reading_.found.add(std::move(problem));
  }

  void read_deck(Card& card) {
    const Text* asked = cell(card, deck_);
    const std::string name(asked ? trimmed(asked->text) : std::string_view{});
    card.deck = decks_.front();
    if (name.empty()) return;
    if (std::find(decks_.begin(), decks_.end(), name) != decks_.end()) {
      card.deck = name;
    } else {
      reading_.found.add(unknown_name(Id::game_unknown_deck, "deck", name, asked->origin, decks_));
    }
  }

  void read_copies(Card& card) {
    const Text* asked = cell(card, copies_);
    const std::string_view text = asked ? trimmed(asked->text) : std::string_view{};
    if (text.empty()) return;
    int copies = 0;
    const char* end = text.data() + text.size();
    const auto [stop, error] = std::from_chars(text.data(), end, copies);
    if (error != std::errc{} || stop != end || copies < 0 || copies > most_copies) {
      Diagnostic problem(Id::game_copies, asked->origin,
                         fmt::format("copies is {}; it can be a whole number from 0 to {}",
                                     in_quotes(text), most_copies));
      reading_.found.add(problem.hint("leave the cell empty for one copy"));
      return;
    }
    card.copies = copies;
    if (copies > 0) return;
    reading_.found.add(Diagnostic(Id::game_no_copies, asked->origin,
                                  fmt::format("{} has 0 copies and is not printed",
                                              card.id.empty() ? "this card" : card.id)));
  }

  Reading& reading_;
  Game& game_;
  std::vector<std::string> suits_, decks_;
  std::map<std::string, std::size_t> seen_;
  int id_, suit_, deck_, copies_;
};

bool is_blank(const Row& row) {
  return std::all_of(row.begin(), row.end(),
                     [](const Text& cell) { return trimmed(cell.text).empty(); });
}

void check_columns(Reading& reading, const FileName& file) {
  const Row& columns = reading.game.columns;
  if (columns.empty()) {
    Diagnostic problem(Id::game_no_cards, {file}, "the list is empty");
    reading.found.add(
        problem.hint("write the columns' names into the first row, id,name,copies, "
                     "and below it a row for each card"));
    return;
  }
  if (column(reading.game, "id") >= 0) return;
  Diagnostic problem(Id::game_no_id_column, columns[0].origin, "there is no column id");
  for (const Text& name : columns) {
    if (lower_case(name.text) != "id") continue;
    reading.found.add(problem.hint(fmt::format("write id instead of {}", name.text)));
    return;
  }
  reading.found.add(
      problem.hint("write id into the first row, and a short name of its own for "
                   "each card below it"));
}

}  // namespace

void read_cards(Reading& reading) {
  const FileName file("cards.csv");
  const auto bytes = read_file(reading.world, file.str(), {file}, reading.found);
  reading.cards_whole = bytes != nullptr;
  if (!bytes) return;
  Checked<CsvTable> table = read_csv(*bytes, file);
  reading.cards_whole = !any_errors(table.found);
  reading.found.add(std::move(table.found));
  reading.game.columns = std::move(table.value.header);
  if (reading.game.columns.empty() && !reading.cards_whole) return;
  check_columns(reading, file);
  if (reading.game.columns.empty()) return;
  CardRows rows(reading);
  for (Row& row : table.value.rows) {
    if (!is_blank(row)) rows.add(std::move(row));
  }
  if (!reading.game.cards.empty() || !reading.cards_whole) return;
  Diagnostic problem(Id::game_no_cards, {file, 1, 1, 0}, "there is no card below the first row");
  reading.found.add(problem.hint("write a row for each card"));
}

}  // namespace quoin::game
