#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "geometry/polygon.h"
#include "pack/sample_box.h"
#include "sheets/nest.h"
#include "sheets/printable.h"

namespace quoin::pack {
namespace {

using testing::HasSubstr;
using testing::SizeIs;

pieces::Box box_of(const game::Game& game) { return *box_for_paper(game).value; }

Diagnostics only(Id id, const Diagnostics& found) {
  Diagnostics those;
  for (const Diagnostic& one : found) {
    if (one.id == id) those.push_back(one);
  }
  return those;
}

/// Boost.Geometry says that no net lies on another one's bleed and that all cuts can be printed.
void expect_sound(const game::Game& game, const pieces::Box& box, const BoxSheets& laid) {
  for (const NetSheet& sheet : laid.sheets) {
    std::vector<sheets::Footprint> cuts, bleeds;
    for (const NetPlace& place : sheet.nets) {
      const auto cut = fold::cut_outline(box.model.parts[static_cast<std::size_t>(place.net)].net);
      cuts.push_back(sheets::mapped(cut, place.map));
      bleeds.push_back(sheets::mapped(grown(cut, Mm{3}), place.map));
      const Rect reach = grown(sheets::bounds(cuts.back()), Mm{1});
      EXPECT_TRUE(lies_in(reach, sheets::printable(game.sheets, sheet.paper)));
    }
    for (std::size_t i = 0; i < cuts.size(); ++i) {
      for (std::size_t k = 0; k < cuts.size(); ++k) {
        if (i == k) continue;
        double shared = 0;
        for (const Region& region : common(cuts[i][0].outer, bleeds[k][0].outer)) {
          shared += area(region.outer);
        }
        EXPECT_LT(shared, 1e-6) << "net " << i << " and the bleed of " << k;
      }
    }
  }
}

TEST(BoxSheets, hold_every_net_of_every_kind) {
  for (const pieces::BoxKind& kind : pieces::box_kinds()) {
    const game::Game game = sample_game(std::string(kind.word));
    const pieces::Box box = box_of(game);
    const auto laid = lay_box(game, box, {}, 1);
    EXPECT_EQ(whole(laid.found), "") << kind.word;
    std::size_t nets = 0;
    for (const NetSheet& sheet : laid.value.sheets) nets += sheet.nets.size();
    EXPECT_EQ(nets, box.model.parts.size()) << kind.word;
    expect_sound(game, box, laid.value);
  }
}

TEST(BoxSheets, hold_tray_and_sleeve_of_a_small_deck_together) {
  game::Game game = sample_game("sleeve");
  game.card.size = {44_mm, 68_mm};
  game.cards[0].copies = 32;
  const pieces::Box box = box_of(game);
  const auto laid = lay_box(game, box, {}, 1);
  ASSERT_THAT(laid.value.sheets, SizeIs(1));
  EXPECT_THAT(laid.value.sheets[0].nets, SizeIs(2));
  expect_sound(game, box, laid.value);
}

TEST(BoxSheets, for_several_decks_are_laid_once_and_say_how_often) {
  game::Game game = sample_game("tuck");
  game.card.size = {30_mm, 45_mm};
  game.cards[0].copies = 20;
  const pieces::Box box = box_of(game);
  const auto laid = lay_box(game, box, {}, 7);
  ASSERT_FALSE(laid.value.sheets.empty());
  int boxes = 0;
  for (const NetSheet& sheet : laid.value.sheets) {
    boxes += sheet.times * static_cast<int>(sheet.nets.size());
  }
  EXPECT_EQ(boxes, 7);
  EXPECT_GT(laid.value.sheets[0].nets.size(), 1U);
  EXPECT_LT(laid.value.count(), 7);
  expect_sound(game, box, laid.value);
}

TEST(BoxSheets, for_a_thousand_decks_are_no_more_work) {
  const game::Game game = sample_game("tuck");
  const auto laid = lay_box(game, box_of(game), {}, 1000);
  EXPECT_EQ(laid.value.count(), 1000);
  EXPECT_THAT(laid.value.sheets, SizeIs(1));
}

TEST(BoxSheets, come_in_two_parts_when_one_is_too_large_and_say_so) {
  game::Game game = sample_game("tuck");
  game.card.size = {110_mm, 130_mm};
  const auto made = box_for_paper(game);
  ASSERT_TRUE(made.value);
  EXPECT_THAT(made.value->model.parts, SizeIs(2));
  EXPECT_EQ(whole(only(Id::box_two_parts, made.found)),
            "note box.two-parts game.toml:9:1\n"
            "the net would be 274.2 x 201.8 mm in one part, too large for A4, so it comes in two\n"
            "the back half has a joining flap that is glued inside the right side\n"
            "hint: write parts = \"one\" under [box] to keep it in one part\n");
  const auto laid = lay_box(game, *made.value, {}, 1);
  EXPECT_EQ(whole(laid.found), "");
  expect_sound(game, *made.value, laid.value);
}

TEST(BoxSheets, keep_the_net_in_one_part_when_asked_and_name_paper_of_the_own_family) {
  game::Game game = sample_game("tuck");
  game.card.size = {130_mm, 130_mm};
  game.box->parts = game::NetParts::one;
  const auto said = [&] { return lay_box(game, box_of(game), {}, 1).found.at(0); };
  EXPECT_EQ(whole({said()}),
            "warning box.larger-than-sheet game.toml:9:1\n"
            "the net of the box is 314.2 x 201.8 mm, and A4 has 200.0 x 273.0 mm for it\n"
            "home/box.pdf is without it; the files for a shop and a cutter have it\n"
            "hint: A3 takes it\n"
            "hint: have shop/box.pdf printed, or cut it from cutter/box.svg\n");
  game.sheets.paper = {Mm{215.9}, Mm{279.4}};
  game.sheets.paper_name = "Letter";
  EXPECT_THAT(said().hints.front(), testing::AnyOf("Legal takes it", "Tabloid takes it"));
}

TEST(BoxSheets, of_a_kind_without_halves_say_that_there_are_none) {
  game::Game game = sample_game("lid");
  game.box->parts = game::NetParts::two;
  EXPECT_EQ(whole(only(Id::box_not_in_two, box_for_paper(game).found)),
            "warning box.not-in-two game.toml:9:1\n"
            "the nets of a base and lid are not drawn in two parts\n"
            "hint: leave parts out, or write kind = \"tuck\" or kind = \"sleeve\"\n");
}

TEST(BoxSheets, with_a_printed_inside_have_their_lines_on_the_front) {
  game::Game game = sample_game("tuck");
  game.box->lines = game::NetLines::back;
  const pieces::Box box = box_of(game);
  EXPECT_EQ(lay_box(game, box, sample_art(box, Inside::plain), 1).value.lines,
            game::NetLines::back);
  const auto laid = lay_box(game, box, sample_art(box, Inside::printed), 1);
  EXPECT_EQ(laid.value.lines, game::NetLines::front);
  EXPECT_EQ(whole(laid.found),
            "note box.lines-on-inside game.toml:9:1\n"
            "the inside of the box is printed, so the lines are on the front\n"
            "lines on the back would lie on what is printed there\n"
            "hint: write lines = \"front\", or leave it out\n");
}

}  // namespace
}  // namespace quoin::pack
