#include <fmt/format.h>

#include <algorithm>

#include "game/conditions.h"
#include "game/formats.h"
#include "game/reading.h"
#include "game/schema_check.h"
#include "game/section.h"
#include "game/size_check.h"
#include "game/words.h"

namespace quoin::game {
namespace {

bool is_shape_of(const SectionFacts& section, const Node& node) {
  if (section.occurrence != Occurrence::listed) return node.table() != nullptr;
  if (!node.list()) return false;
  for (const Node& item : *node.list()) {
    if (!item.table()) return false;
  }
  return true;
}

void check_section(Reading& reading, const SectionFacts& section, const Entry& entry) {
  KeySet keys = keys_in(section.name);
  if (!is_shape_of(section, entry.value)) {
    Diagnostic problem(
        Id::game_wrong_type, entry.value.origin,
        fmt::format("{} is a heading of its own, not {}", section.heading, describe(entry.value)));
    reading.found.add(
        problem.hint(fmt::format("write {} on a line of its own, and its keys below "
                                 "it",
                                 section.heading)));
  } else if (section.occurrence == Occurrence::once) {
    reading.found.add(check_table(keys, *entry.value.table(), entry.value.origin, reading.names));
  } else if (section.occurrence == Occurrence::listed) {
    for (const Node& item : *entry.value.list()) {
      reading.found.add(check_table(keys, *item.table(), item.origin, reading.names));
    }
  } else {
    for (const Entry& named : *entry.value.table()) {
      keys.called = fmt::format("[{}.{}]", section.name, named.key);
      if (named.value.table()) {
        reading.found.add(
            check_table(keys, *named.value.table(), named.value.origin, reading.names));
        continue;
      }
      Diagnostic problem(
          Id::game_wrong_type, named.value.origin,
          fmt::format("{} is a heading of its own, not {}", keys.called, describe(named.value)));
      reading.found.add(problem.hint(fmt::format("write {} on a line of its own", keys.called)));
    }
  }
}

const SectionFacts* section_named(std::string_view name) {
  for (const SectionFacts& section : game_sections()) {
    if (section.name == name && section.occurrence != Occurrence::inside) return &section;
  }
  return nullptr;
}

Diagnostic unknown_section(const Entry& entry) {
  KeySet keys;
  keys.called = "game.toml";
  if (!entry.value.table()) return unknown_key(keys, entry);
  std::vector<std::string> known;
  for (const SectionFacts& section : game_sections()) {
    if (section.occurrence != Occurrence::inside) known.emplace_back(section.name);
  }
  Diagnostic problem(Id::game_unknown_key, entry.key_origin,
                     fmt::format("game.toml has no heading [{}]", entry.key));
  if (const auto meant = nearest(entry.key, known)) {
    return problem.hint(fmt::format("did you mean [{}]?", *meant));
  }
  return problem.hint(fmt::format("the headings are {}", all_of(known)));
}

void check_all(Reading& reading, const Table& settings) {
  for (const Entry& entry : settings) {
    const SectionFacts* section = section_named(entry.key);
    if (section)
      check_section(reading, *section, entry);
    else
      reading.found.add(unknown_section(entry));
  }
  if (find(settings, "game")) return;
  Diagnostic problem(Id::game_missing_key, {FileName("game.toml")}, "the game has no title");
  reading.found.add(problem.hint("write [game] and below it title = \"…\""));
}

void read_title(Game& game, const Table* table) {
  const Section section("game", table);
  for (const PropertyFacts& key : keys_of("game")) {
    game.facts[std::string(key.key)] = {section.text(key.key), section.origin(key.key)};
  }
  game.title = section.text("title");
  game.subtitle = section.text("subtitle");
  game.author = section.text("author");
  game.version = section.text("version");
  game.licence = section.text("licence");
  game.website = section.text("website");
  game.language = section.text("language");
}

void read_card(Reading& reading, const Table* table, const Origin& whole) {
  const Section section("card", table);
  CardFormat& card = reading.game.card;
  card.size_name = section.text("size");
  card.origin = section.has("size") ? section.origin("size") : whole;
  std::optional<NamedSize> size = find_size(card.size_name, card_sizes());
  if (size) {
    if (auto problem = size_problem(*size, card.origin)) reading.found.add(std::move(*problem));
  } else {
    reading.found.add(unknown_size(card.size_name, card.origin, card_sizes()));
    size = card_sizes().front();
  }
  card.size = size->size;
  card.corner = Mm{section.number_if_given("corner").value_or(size->corner.value)};
  card.bleed = section.length("bleed");
  card.safe = section.length("safe");
  const Mm half = std::min(card.size.width, card.size.height) / 2;
  if (card.corner <= half) return;
  Diagnostic problem(Id::game_out_of_range, section.origin("corner"),
                     fmt::format("corner is {}; it can be 0 to {} mm, half the card's shorter side",
                                 number_text(card.corner.value), number_text(half.value)));
  reading.found.add(std::move(problem));
  card.corner = half;
}

void read_stock(Game& game, const Table* table) {
  const Section section("stock", table);
  game.stock.name = section.text("name");
  game.stock.paper_class = section.text("class");
  game.stock.grammage = section.number_if_given("grammage");
  const std::optional<double> caliper = section.number_if_given("caliper");
  if (caliper) game.stock.caliper = Mm{*caliper};
}

void collect_names(Reading& reading, const Table& settings) {
  const auto keys = [&](std::string_view section, std::vector<std::string>& names) {
    const Table* table = table_under(settings, section);
    if (!table) return;
    for (const Entry& entry : *table) names.push_back(entry.key);
  };
  keys("colours", reading.names.colours);
  keys("styles", reading.names.styles);
  keys("symbols", reading.names.symbols);
}

}  // namespace

void read_settings(Reading& reading, const Table& settings) {
  collect_names(reading, settings);
  check_all(reading, settings);
  const Node* card = find(settings, "card");
  read_title(reading.game, table_under(settings, "game"));
  read_card(reading, table_under(settings, "card"), card ? card->origin : Origin{});
  const Node* stock = find(settings, "stock");
  reading.game.stock.origin = stock ? stock->origin : Origin{FileName("game.toml")};
  read_stock(reading.game, stock ? stock->table() : nullptr);
  read_names(reading, settings);
  read_sheets(reading, settings);
  read_box(reading, settings);
  read_mat(reading, settings);
  read_rules(reading, settings);
  read_making(reading, settings);
}

}  // namespace quoin::game
