#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "game/conditions.h"
#include "game/reading.h"
#include "game/section.h"
#include "game/words.h"

namespace quoin::game {
namespace {

constexpr const char* default_face = "layouts/face.toml";
constexpr const char* default_back = "layouts/back.toml";

bool exists(const World& world, const std::string& path) {
  const std::vector<std::string> there = world.files_below(folder_of(path));
  return std::binary_search(there.begin(), there.end(), path);
}

bool is_font(const std::string& path) {
  const std::string name = lower_case(path);
  return std::ranges::any_of(std::array{".ttf", ".otf", ".ttc", ".otc"},
                             [&](const char* ending) { return name.ends_with(ending); });
}

std::vector<std::string> fonts_below(const World& world, const std::string& folder) {
  std::vector<std::string> fonts;
  for (std::string& file : world.files_below(folder)) {
    if (is_font(file)) fonts.push_back(std::move(file));
  }
  return fonts;
}

void read_font(Reading& reading, const Node& asked) {
  const std::string path = normal_path(*asked.text());
  std::vector<std::string>& files = reading.game.font_files;
  const auto add = [&](const std::string& file) {
    if (std::find(files.begin(), files.end(), file) == files.end()) files.push_back(file);
  };
  if (!path.empty() && exists(reading.world, path)) return add(path);
  const std::vector<std::string> below =
      path.empty() ? std::vector<std::string>{} : fonts_below(reading.world, path);
  for (const std::string& font : below) add(font);
  if (!below.empty()) return;
  if (!path.empty() && !reading.world.files_below(path).empty()) {
    Diagnostic problem(Id::game_missing_file, asked.origin,
                       fmt::format("there are no fonts in the folder {}", *asked.text()));
    reading.found.add(problem.hint("fonts end in .ttf, .otf, .ttc or .otc"));
    return;
  }
  (void)read_file(reading.world, *asked.text(), asked.origin, reading.found);
}

void read_fonts(Reading& reading, const Table* table) {
  const Section section("fonts", table);
  if (!section.has("files")) {
    reading.game.font_files = fonts_below(reading.world, "fonts");
    return;
  }
  for (const Node& asked : section.texts("files")) read_font(reading, asked);
}

std::vector<Named> named(const Table* table) {
  std::vector<Named> all;
  if (!table) return all;
  for (const Entry& entry : *table) all.push_back({entry.key, entry.value});
  return all;
}

void read_symbols(Game& game, const Table* table) {
  if (!table) return;
  for (const Entry& entry : *table) {
    const Section section("symbol", entry.value.table());
    Symbol symbol;
    symbol.name = entry.key;
    symbol.origin = entry.value.origin;
    symbol.scale = section.number("scale");
    symbol.drop = section.number("drop");
    symbol.picture = entry.value.text() ? *entry.value.text() : section.text("picture");
    game.symbols.push_back(std::move(symbol));
  }
}

/// A value of the maker's own as the text that a placeholder puts in place.
std::optional<Text> as_text(const Node& value) {
  if (const std::string* text = value.text()) return Text{*text, value.origin};
  if (const double* number = value.number()) return Text{number_text(*number), value.origin};
  if (const bool* flag = value.flag()) return Text{*flag ? "true" : "false", value.origin};
  return std::nullopt;
}

void read_suits(Game& game, const Table* table) {
  if (!table) return;
  for (const Entry& entry : *table) {
    Suit suit{entry.key, entry.key_origin, {}};
    if (!entry.value.table()) continue;
    for (const Entry& key : *entry.value.table()) {
      if (std::optional<Text> value = as_text(key.value)) suit.values[key.key] = *value;
    }
    game.suits.push_back(std::move(suit));
  }
}

void read_decks(Reading& reading, const Table* table) {
  const std::string back = exists(reading.world, default_back) ? default_back : "";
  const auto add = [&](const std::string& id, const Origin& origin, const Table* keys) {
    const Section section("decks", keys);
    Deck deck{id, section.text("name"), origin, back, section.origin("back")};
    if (deck.name.empty()) deck.name = id;
    if (section.has("back")) deck.back = section.text("back");
    reading.game.decks.push_back(std::move(deck));
  };
  if (table) {
    for (const Entry& entry : *table) {
      if (entry.value.table()) add(entry.key, entry.key_origin, entry.value.table());
    }
  }
  if (reading.game.decks.empty()) add("main", {FileName("game.toml")}, nullptr);
}

void read_rules(Reading& reading, const Node* layouts) {
  if (layouts && layouts->list()) {
    for (const Node& item : *layouts->list()) {
      if (!item.table()) continue;
      const Section section("layouts", item.table());
      if (!section.has("file")) continue;
      reading.rules.push_back({section.text("file"), section.origin("file"),
                               read_conditions(section.given("when")),
                               read_conditions(section.given("unless"))});
    }
    return;
  }
  const Origin nowhere{FileName("game.toml")};
  if (exists(reading.world, default_face)) {
    reading.rules.push_back({default_face, nowhere, {}, {}});
  }
}

}  // namespace

void read_names(Reading& reading, const Table& settings) {
  Game& game = reading.game;
  game.colours = named(table_under(settings, "colours"));
  game.styles = named(table_under(settings, "styles"));
  std::erase_if(game.styles, [](const Named& style) { return !style.value.table(); });
  read_fonts(reading, table_under(settings, "fonts"));
  read_symbols(game, table_under(settings, "symbols"));
  read_suits(game, table_under(settings, "suits"));
  read_decks(reading, table_under(settings, "decks"));
  read_rules(reading, find(settings, "layouts"));
}

}  // namespace quoin::game
