#include <fmt/format.h>

#include <array>

#include "game/reading.h"
#include "game/schema_check.h"
#include "game/section.h"
#include "game/toml_file.h"
#include "game/words.h"

namespace quoin::game {
namespace {

constexpr std::string_view shared_name = "prices.toml";

/// The keys of a price, each with its value.
struct PriceKey {
  std::string_view key;
  std::optional<double> Prices::*value;
};
constexpr std::array<PriceKey, 6> known_prices{{{"sheet", &Prices::sheet},
                                                {"board", &Prices::board},
                                                {"paper", &Prices::paper},
                                                {"ink", &Prices::ink},
                                                {"glue", &Prices::glue},
                                                {"sleeve", &Prices::sleeve}}};

/// A shared file as it was read.
struct SharedFile {
  Table table;
  FileName name;
};

/// Prices that all games share stop none of them: what is wrong with them is a warning.
void tell_of_shared(Reading& reading, Diagnostics problems) {
  for (Diagnostic& problem : problems) {
    if (problem.severity == Severity::error) problem.severity = Severity::warning;
    reading.found.add(std::move(problem));
  }
}

/// Checked as the section [prices] is; its keys stand without a heading. False when a price is not
/// to be relied on: then none of the file is.
bool check_shared(Reading& reading, const SharedFile& file) {
  KeySet keys = keys_in("prices");
  keys.called = file.name.str();
  for (const Entry& entry : file.table) {
    if (!entry.value.table()) continue;
    Diagnostic problem(Id::game_unknown_key, entry.key_origin,
                       fmt::format("{} has no heading [{}]", keys.called, entry.key));
    tell_of_shared(reading, {problem.hint(entry.key == "prices"
                                              ? "take the heading out and leave the keys below it"
                                              : "the headings of a game stand in its game.toml")});
  }
  Table plain;
  for (const Entry& entry : file.table) {
    if (!entry.value.table()) plain.push_back(entry);
  }
  Diagnostics problems = check_table(keys, plain, {file.name}, reading.names);
  const bool is_sound = !any_errors(problems);
  tell_of_shared(reading, std::move(problems));
  return is_sound;
}

/// The file beside game.toml, or else the machine's.
std::optional<SharedFile> shared_prices(Reading& reading) {
  const std::array<std::pair<const World*, std::string>, 2> shelves{
      {{&reading.world, std::string(shared_name)},
       {reading.machine.folder, reading.machine.shown}}};
  for (const auto& [world, shown] : shelves) {
    if (!world) continue;
    const ReadAnswer answer = world->read(shared_name, largest_toml);
    if (!answer.ok() && answer.failure == ReadFailure::missing) continue;
    const FileName name(shown);
    if (!answer.ok()) {
      tell_of_shared(reading, {Diagnostic(Id::game_unreadable_file, {name},
                                          explain(answer, std::string(shown)))});
      return std::nullopt;
    }
    Result<Table> toml = read_toml(*answer.bytes, name);
    if (!toml) {
      tell_of_shared(reading, std::move(toml).why());
      return std::nullopt;
    }
    return SharedFile{std::move(toml).value(), name};
  }
  return std::nullopt;
}

void take(Prices& prices, const Section& from) {
  if (from.has("currency")) prices.currency = from.text("currency");
  if (const Node* example = from.given("example")) prices.is_example = *example->flag();
  for (const PriceKey& each : known_prices) {
    if (const auto price = from.number_if_given(each.key)) prices.*each.value = price;
  }
}

/// Whether the two cannot be added up, which is said.
bool currencies_differ(Reading& reading, const Section& own, const Section& shared,
                       const FileName& file) {
  if (!own.has("currency") || !shared.has("currency")) return false;
  const std::string here = own.text("currency"), there = shared.text("currency");
  if (here == there) return false;
  Diagnostic problem(Id::game_currencies_differ, own.origin("currency"),
                     fmt::format("the game's prices are in {}, and those of {} in {}",
                                 in_quotes(here), file.str(), in_quotes(there)));
  reading.found.add(
      problem.hint("give all prices under [prices], or leave its currency out and use the file's"));
  return true;
}

}  // namespace

void read_prices(Reading& reading, const Table& settings) {
  Prices& prices = reading.game.making.prices;
  const Section own("prices", table_under(settings, "prices"));
  if (const std::optional<SharedFile> file = shared_prices(reading)) {
    const Section shared("prices", &file->table);
    if (check_shared(reading, *file) && !currencies_differ(reading, own, shared, file->name)) {
      take(prices, shared);
    }
  }
  take(prices, own);
}

}  // namespace quoin::game
