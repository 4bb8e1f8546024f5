#include <gtest/gtest.h>

#include "pack/sample_box.h"

namespace quoin::pack {

game::Game sample_game(const std::string& kind) {
  game::Game game;
  game.title = "Tidewrack";
  game.stock.caliper = Mm{0.30};
  game.cards.resize(1);
  game.cards[0].copies = 54;
  game.box.emplace();
  game.box->kind = kind;
  game.box->board.caliper = Mm{0.40};
  game.box->origin = {FileName("game.toml"), 9, 1, 5};
  return game;
}

namespace {

Scene ground(const std::vector<Region>& where, Colour colour) {
  ShapeItem shape;
  shape.path = to_path(where);
  shape.fill = colour;
  Item item;
  item.what = std::move(shape);
  return {{std::move(item)}};
}

}  // namespace

BoxArt sample_art(const pieces::Box& box, Inside inside) {
  BoxArt art;
  for (const fold::Part& part : box.model.parts) {
    pieces::NetArt& one = art.emplace_back();
    one.bleed = Mm{3};
    one.printed = ground(fold::inked_outline(part.net, one.bleed), {0.55, 0.65, 0.7, 1});
    if (inside == Inside::plain) continue;
    one.inside = ground(fold::cut_outline(part.net), {0.9, 0.8, 0.6, 1});
    for (Item& item : one.inside.items) item.map = Affine::scale(-1, 1);
  }
  return art;
}

std::string whole(const Diagnostics& found) {
  std::string all;
  for (const Diagnostic& one : found) {
    all += std::string(to_string(one.severity)) + " " + std::string(facts(one.id).name) + " " +
           to_string(one.origin) + "\n" + one.message + "\n";
    for (const std::string& detail : one.details) all += detail + "\n";
    for (const std::string& hint : one.hints) all += "hint: " + hint + "\n";
  }
  return all;
}

TEST(SampleBox, has_a_sound_box_for_every_kind) {
  for (const pieces::BoxKind& kind : pieces::box_kinds()) {
    const auto made = box_for_paper(sample_game(std::string(kind.word)));
    ASSERT_TRUE(made.value) << kind.word;
    EXPECT_FALSE(any_errors(made.found)) << kind.word;
  }
}

}  // namespace quoin::pack
