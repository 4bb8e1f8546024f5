#include <fmt/format.h>

#include <algorithm>
#include <filesystem>
#include <map>

#include "desk/views.h"
#include "media/colour.h"
#include "pieces/box/stack.h"

namespace quoin::desk {
namespace {

/// Lines of the game's files, each file read once.
class Lines {
 public:
  explicit Lines(const World& world) : world_(world) {}

  std::string at(const Origin& origin) {
    if (origin.file.empty() || origin.line == 0) return {};
    const std::vector<std::string>& lines = lines_of(origin.file.str());
    return origin.line <= lines.size() ? lines[origin.line - 1] : std::string{};
  }

 private:
  static constexpr std::size_t largest = std::size_t{16} << 20;
  static constexpr std::size_t longest = 2000;  // bytes of a line that are of use to anybody

  const std::vector<std::string>& lines_of(const std::string& file) {
    const auto [known, is_new] = files_.try_emplace(file);
    const ReadAnswer answer = is_new ? world_.read(file, largest) : ReadAnswer{};
    if (!answer.ok()) return known->second;
    std::string_view left = *answer.bytes;
    while (!left.empty()) {
      const std::size_t end = std::min(left.find('\n'), left.size());
      std::string line(left.substr(0, std::min(end, longest)));
      if (line.ends_with('\r')) line.pop_back();
      known->second.push_back(std::move(line));
      left.remove_prefix(std::min(end + 1, left.size()));
    }
    return known->second;
  }

  const World& world_;
  std::map<std::string, std::vector<std::string>> files_;
};

Json range_view(Mm low, Mm high) { return {{"low", low.value}, {"high", high.value}}; }

std::optional<Colour> colour_in(const game::Game& game, const std::string& text) {
  for (const game::Named& named : game.colours) {
    if (named.name == text && named.value.text() != nullptr) {
      return parse_colour(*named.value.text());
    }
  }
  return parse_colour(text);
}

Json colours_view(const game::Game& game) {
  Json colours = Json::array();
  for (const game::Named& named : game.colours) {
    const std::optional<Colour> colour = colour_in(game, named.name);
    colours.push_back({{"name", named.name},
                       {"value", colour ? Json(to_string(*colour)) : Json(nullptr)},
                       {"place", place_view(named.value.origin)}});
  }
  return colours;
}

Json suits_view(const game::Game& game) {
  Json suits = Json::array();
  for (const game::Suit& suit : game.suits) {
    const auto text = [&](const char* key) {
      const auto found = suit.values.find(key);
      return found == suit.values.end() ? std::string{} : found->second.text;
    };
    const std::optional<Colour> colour = colour_in(game, text("colour"));
    Json one{{"id", suit.id}, {"name", text("name").empty() ? suit.id : text("name")}};
    one["colour"] = colour ? Json(to_string(*colour)) : Json(nullptr);
    suits.push_back(std::move(one));
  }
  return suits;
}

std::string key_of(const Faces& faces, int face) {
  return face < 0 ? std::string{} : faces.all[static_cast<std::size_t>(face)].key;
}

Json decks_view(const Snapshot& shown) {
  Json decks = Json::array();
  for (const game::Deck& deck : shown.game.decks) {
    int cards = 0;
    std::string back;
    for (std::size_t i = 0; i < shown.game.cards.size(); ++i) {
      const game::Card& card = shown.game.cards[i];
      if (card.deck != deck.id) continue;
      cards += card.copies;
      if (back.empty()) back = key_of(shown.faces, shown.faces.back_of[i]);
    }
    decks.push_back({{"id", deck.id}, {"name", deck.name}, {"cards", cards}, {"back", back}});
  }
  return decks;
}

Json cards_view(const Snapshot& shown) {
  Json cards = Json::array();
  for (std::size_t i = 0; i < shown.game.cards.size(); ++i) {
    const game::Card& card = shown.game.cards[i];
    Json cells = Json::array();
    for (const game::Text& cell : card.cells) cells.push_back(cell.text);
    const std::string layout =
        card.layout < 0 ? std::string{}
                        : shown.game.layouts[static_cast<std::size_t>(card.layout)].file.str();
    cards.push_back({{"id", card.id},
                     {"row", i},
                     {"copies", card.copies},
                     {"suit", card.suit},
                     {"deck", card.deck},
                     {"cells", std::move(cells)},
                     {"front", key_of(shown.faces, shown.faces.front_of[i])},
                     {"back", key_of(shown.faces, shown.faces.back_of[i])},
                     {"layout", layout}});
  }
  return cards;
}

Json layouts_view(const game::Game& game) {
  std::vector<int> fronts(game.layouts.size()), backs(game.layouts.size());
  for (const game::Card& card : game.cards) {
    if (card.layout >= 0) ++fronts[static_cast<std::size_t>(card.layout)];
    if (card.back >= 0) ++backs[static_cast<std::size_t>(card.back)];
  }
  Json layouts = Json::array();
  for (std::size_t i = 0; i < game.layouts.size(); ++i) {
    // Layouts of the box and the mat are drawn on no card.
    const bool is_elsewhere =
        &game.layouts[i] == game::box_layout(game) || &game.layouts[i] == game::mat_layout(game);
    if (is_elsewhere && fronts[i] + backs[i] == 0) continue;
    const bool is_back = backs[i] > 0 && fronts[i] == 0;
    layouts.push_back({{"file", game.layouts[i].file.str()},
                       {"cards", is_back ? backs[i] : fronts[i]},
                       {"isBack", is_back}});
  }
  return layouts;
}

/// The ids on a sheet, cell by cell.
Json sheet_cards(const Checkup& checkup, const sheets::Sheet& sheet) {
  std::vector<std::string> of_copy;
  Json cards = Json::array();
  for (std::size_t cell = 0; cell < sheet.copies.size(); ++cell) {
    std::string id;
    const Rect& trim = checkup.outcome.plan->grid.trims[cell];
    for (const sheets::Placed& placed : sheet.front.placed) {
      if (placed.is_back || sheet.copies[cell] < 0 || !overlap(placed.trim, trim)) continue;
      id = checkup.printed.drawings[static_cast<std::size_t>(placed.drawing)].piece;
      break;
    }
    cards.push_back(std::move(id));
  }
  return cards;
}

std::string_view backs_word(game::BackPrinting backs) {
  switch (backs) {
    case game::BackPrinting::printer:
      return "printer";
    case game::BackPrinting::by_hand:
      return "by-hand";
    case game::BackPrinting::fold:
      return "fold";
    case game::BackPrinting::none:
      break;
  }
  return "none";
}

Json sheets_view(const Checkup& checkup) {
  const sheets::Plan& plan = *checkup.outcome.plan;
  Json trims = Json::array(), sheets = Json::array();
  for (const Rect& trim : plan.grid.trims) {
    trims.push_back({{"x", trim.at.x.value},
                     {"y", trim.at.y.value},
                     {"width", trim.size.width.value},
                     {"height", trim.size.height.value}});
  }
  for (std::size_t i = 0; i < plan.sheets.size(); ++i) {
    sheets.push_back({{"index", i},
                      {"hasBack", !plan.sheets[i].back.placed.empty()},
                      {"cards", sheet_cards(checkup, plan.sheets[i])}});
  }
  return {{"width", plan.grid.paper.width.value},
          {"height", plan.grid.paper.height.value},
          {"paper", plan.wishes.paper_name},
          {"columns", plan.grid.columns},
          {"rows", plan.grid.rows},
          {"turned", plan.grid.turned},
          {"flip", plan.wishes.flip == game::FlipEdge::long_edge ? "long-edge" : "short-edge"},
          {"backs", backs_word(plan.wishes.backs)},
          {"choices", plan.choices},
          {"trims", std::move(trims)},
          {"sheets", std::move(sheets)}};
}

/// Counts that follow from the list alone are of this moment, even before the sheets are laid.
Json totals_view(const Snapshot& shown) {
  pack::Totals totals = shown.checkup ? shown.checkup->outcome.totals : pack::Totals{};
  totals.rows = totals.cards = totals.backs = 0;
  for (const game::Card& card : shown.game.cards) {
    if (card.layout < 0) continue;
    totals.cards += card.copies;
    if (card.copies > 0) ++totals.rows;
  }
  for (const Face& face : shown.faces.all) totals.backs += face.is_back ? 1 : 0;
  return {{"rows", totals.rows},
          {"cards", totals.cards},
          {"pieces", totals.pieces},
          {"backs", totals.backs},
          {"sheets", totals.sheets}};
}

/// Of this moment when it was checked; else what reading it found, and what the checks said last.
Diagnostics findings_of(const Snapshot& shown) {
  Diagnostics found = shown.found_changing;
  if (shown.is_checked) {
    found.insert(found.end(), shown.checkup->outcome.found.begin(),
                 shown.checkup->outcome.found.end());
    return found;
  }
  found.insert(found.end(), shown.found_reading.begin(), shown.found_reading.end());
  if (!shown.checkup || shown.state_of != Snapshot::StateOf::game) return found;
  for (const Diagnostic& earlier : shown.checkup->outcome.found) {
    const bool is_of_reading = facts(earlier.id).name.starts_with("game.");
    if (!is_of_reading) found.push_back(earlier);
  }
  return found;
}

Json label_view(const std::optional<std::string>& label) {
  return label ? Json(*label) : Json(nullptr);
}

std::string_view state_word(Snapshot::StateOf state) {
  switch (state) {
    case Snapshot::StateOf::game:
      return "game";
    case Snapshot::StateOf::empty:
      return "empty";
    case Snapshot::StateOf::unreadable:
      break;
  }
  return "unreadable";
}

void add_game(Json& state, const Snapshot& shown) {
  const game::Game& game = shown.game;
  state["title"] = game.title;
  state["subtitle"] = game.subtitle;
  state["card"] = {{"width", game.card.size.width.value}, {"height", game.card.size.height.value},
                   {"corner", game.card.corner.value},    {"bleed", game.card.bleed.value},
                   {"safe", game.card.safe.value},        {"sizeName", game.card.size_name}};
  state["stock"] = game.stock.name;
  state["columns"] = Json::array();
  for (const game::Text& column : game.columns) state["columns"].push_back(column.text);
  state["colours"] = colours_view(game);
  state["suits"] = suits_view(game);
  state["decks"] = decks_view(shown);
  state["cards"] = cards_view(shown);
  state["drawings"] = Json::array();
  for (const Face& face : shown.faces.all) {
    state["drawings"].push_back({{"key", face.key}, {"stamp", face.stamp}});
  }
  state["layouts"] = layouts_view(game);
  state["totals"] = totals_view(shown);
}

/// Of the pile as it lies on the table, or in the box with what that adds.
Json deck_height_view(const Snapshot& shown) {
  pieces::Contents contents{0, shown.game.card.size, shown.game.stock};
  for (const game::Card& card : shown.game.cards) {
    if (card.layout >= 0) contents.cards += card.copies;
  }
  if (contents.cards <= 0) return nullptr;
  const game::BoxWishes wishes = shown.game.box.value_or(game::BoxWishes{});
  const pieces::Range height = pieces::deck_of(contents, wishes).value.height;
  return range_view(height.low, height.high);
}

void add_checkup(Json& state, const Snapshot& shown) {
  const job::Outcome* outcome = shown.checkup ? &shown.checkup->outcome : nullptr;
  const bool has_box = outcome != nullptr && outcome->box;
  state["deckHeight"] = deck_height_view(shown);
  state["sheets"] = nullptr;
  state["box"] = nullptr;
  if (has_box) {
    state["box"] = box_view(*outcome);
  }
  if (outcome != nullptr && outcome->plan) state["sheets"] = sheets_view(*shown.checkup);
}

}  // namespace

Json place_view(const Origin& origin) {
  if (origin.file.empty()) return nullptr;
  return {{"file", origin.file.str()},
          {"line", origin.line},
          {"column", origin.column},
          {"length", origin.length}};
}

Json findings_view(const Diagnostics& found, const World& world) {
  Lines lines(world);
  Json all = Json::array();
  for (const Diagnostic& one : found) {
    const IdFacts& about = facts(one.id);
    all.push_back({{"id", about.name},
                   {"severity", to_string(one.severity)},
                   {"message", one.message},
                   {"details", one.details},
                   {"hints", one.hints},
                   {"place", place_view(one.origin)},
                   {"piece", one.place.piece},
                   {"element", one.place.element},
                   {"title", about.title},
                   {"onTheTable", about.on_the_table},
                   {"remedy", about.remedy},
                   {"source", lines.at(one.origin)}});
  }
  return all;
}

Json conflicts_view(const std::vector<OpenConflict>& conflicts) {
  Json all = Json::array();
  for (const OpenConflict& one : conflicts) {
    all.push_back({{"id", one.id},
                   {"label", one.label},
                   {"file", one.file},
                   {"mine", one.mine},
                   {"theirs", one.theirs},
                   {"place", place_view(one.place)}});
  }
  return all;
}

Json state_view(const Snapshot& shown, const std::string& folder) {
  std::filesystem::path path = std::filesystem::path(folder).lexically_normal();
  if (!path.has_filename()) path = path.parent_path();
  Json state{{"revision", shown.revision},
             {"stateOf", state_word(shown.state_of)},
             {"folder", path.filename().string()}};
  add_game(state, shown);
  add_checkup(state, shown);
  const Diagnostics found = findings_of(shown);
  const Counts counts = count(found);
  state["findings"] = findings_view(found, *shown.sight.world);
  state["errors"] = counts.errors;
  state["warnings"] = counts.warnings;
  state["notes"] = counts.notes;
  state["undo"] = label_view(shown.undo);
  state["redo"] = label_view(shown.redo);
  state["conflicts"] = conflicts_view(shown.conflicts);
  state["list"] =
      shown.game.columns.empty() ? std::string{} : shown.game.columns.front().origin.file.str();
  state["checked"] = shown.is_checked;
  return state;
}

}  // namespace quoin::desk
