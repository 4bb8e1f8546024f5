#pragma once
#include <fmt/format.h>

#include <string>

#include "pieces/card/studio.h"
#include "rules/leaflet.h"

namespace quoin::rules {

/// A small game with rules, read from memory, for tests only: "Shore", five cards in two suits, of
/// which one is there three times.
class GameWithRules {
 public:
  explicit GameWithRules(const std::string& rules, const std::string& more = "") {
    world_.put("game.toml",
               "[game]\ntitle = \"Shore\"\nauthor = \"A. Maker\"\n[card]\nsize = \"poker\"\n"
               "[suits.shell]\nname = \"Shells\"\n[suits.weed]\nname = \"Weed\"\n"
               "[symbols]\nshell = \"art/shell.svg\"\n"
               "[[layouts]]\nfile = \"layouts/face.toml\"\n" +
                   more);
    world_.put("layouts/face.toml",
               "[[element]]\nid = \"ground\"\nkind = \"shape\"\ninset = \"bleed\"\nfill = "
               "\"#e8e0d0\"\n");
    world_.put("cards.csv",
               "id,suit,name,copies\nS-1,shell,One,3\nS-2,shell,Two,1\nW-1,weed,One,1\n"
               "W-2,weed,Two,1\nX,,Other,2\n");
    world_.put("art/shell.svg",
               "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"10\" height=\"10\" viewBox=\"0 0 "
               "10 10\"><circle cx=\"5\" cy=\"5\" r=\"4\"/></svg>");
    world_.put("rules.md", rules);
    Checked<game::Game> read = game::read_game(world_);
    game_ = std::move(read.value);
    found_ = std::move(read.found);
    shelf_.emplace(world_);
    studio_.emplace(game_, *shelf_, found_);
  }

  [[nodiscard]] const game::Game& game() const { return game_; }
  [[nodiscard]] const pieces::Studio& studio() const { return *studio_; }
  [[nodiscard]] const Diagnostics& read_findings() const { return found_; }

  [[nodiscard]] Checked<Manuscript> manuscript(const std::vector<std::string>& credits = {}) const {
    return read_manuscript(*studio_, *game_.rules, credits);
  }
  /// A4 with a box for the deck, printed on both sides.
  [[nodiscard]] static Rooms rooms(Form::Sides sides = Form::Sides::both) {
    Rooms rooms;
    rooms.box = Size{Mm{64.1}, Mm{89.9}};
    rooms.paper = {Mm{210}, Mm{297}};
    rooms.usable = {{Mm{192}, Mm{265}}, {Mm{279}, Mm{178}}};
    rooms.dead_margin = Insets::all(Mm{5});
    rooms.sides = sides;
    return rooms;
  }
  [[nodiscard]] Checked<std::optional<Leaflet>> leaflet(
      const Rooms& rooms = GameWithRules::rooms()) {
    return make_leaflet(*studio_, typesetter_, rooms, {});
  }

 private:
  MemoryWorld world_;
  game::Game game_;
  Diagnostics found_;
  std::optional<PictureShelf> shelf_;
  std::optional<pieces::Studio> studio_;
  Typesetter typesetter_{{}};
};

/// A finding as a terminal would begin it, with its hints.
[[nodiscard]] inline std::string told(const Diagnostic& one) {
  std::string words =
      fmt::format("{}: {} [{}]", to_string(one.origin), one.message, facts(one.id).name);
  for (const std::string& hint : one.hints) words += "\nhint: " + hint;
  return words;
}
[[nodiscard]] inline std::vector<std::string> told(const Diagnostics& found) {
  std::vector<std::string> all;
  for (const Diagnostic& one : found) all.push_back(told(one));
  return all;
}

/// So many words in paragraphs of fifty.
[[nodiscard]] inline std::string many_words(int count) {
  std::string text = "# Shore\n\n";
  for (int i = 1; i <= count; ++i) {
    text += "shoreline";
    text += i % 50 == 0 ? "\n\n" : " ";
  }
  return text;
}

}  // namespace quoin::rules
