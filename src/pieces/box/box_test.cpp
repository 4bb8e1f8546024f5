#include "pieces/box/box.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <random>

#include "pieces/box/check_box.h"
#include "pieces/card/inspect_fixture.h"

namespace quoin::pieces {
namespace {

using game::BoxWishes;
using testing::HasSubstr;

/// 54 cards of 63.5 x 88.9 x 0.30 mm.
Contents usual_deck() {
  Contents contents{54, {Mm{63.5}, Mm{88.9}}, {}};
  contents.stock.caliper = Mm{0.30};
  return contents;
}

BoxWishes usual_box(std::string kind = "tuck") {
  BoxWishes wishes;
  wishes.kind = std::move(kind);
  wishes.board.caliper = Mm{0.40};
  wishes.origin = {FileName("game.toml"), 9, 1, 5};
  return wishes;
}

Diagnostics worse_than_notes(const Diagnostics& found) {
  Diagnostics worse;
  for (const Diagnostic& d : found) {
    if (d.severity != Severity::note) worse.push_back(d);
  }
  return worse;
}

std::string findings(const BoxWishes& wishes, const Contents& contents) {
  return whole(worse_than_notes(make_box(wishes, contents).found));
}

TEST(Box, of_every_kind_closes_round_a_usual_deck) {
  for (const BoxKind& kind : box_kinds()) {
    const auto made = make_box(usual_box(std::string(kind.word)), usual_deck());
    ASSERT_TRUE(made.value) << kind.word;
    EXPECT_EQ(whole(worse_than_notes(made.found)), "") << kind.word;
    EXPECT_TRUE(made.value->fit.collisions.empty()) << kind.word;
    for (const fold::Part& part : made.value->model.parts) {
      EXPECT_THAT(fold::faults_of(part.net), testing::IsEmpty()) << kind.word;
    }
  }
}

TEST(Box, leaves_the_thickest_deck_its_clearance_measured_between_the_flaps) {
  for (const BoxKind& kind : box_kinds()) {
    const auto made = make_box(usual_box(std::string(kind.word)), usual_deck());
    const fold::Block room = made.value->fit.clear.size, deck = thickest(made.value->deck);
    EXPECT_NEAR((room.width - deck.width).value, 0.6, 1e-9) << kind.word;
    EXPECT_NEAR((room.height - deck.height).value, 1.0, 1e-9) << kind.word;
    EXPECT_NEAR((room.depth - deck.depth).value, 0.6, 1e-9) << kind.word;
  }
}

TEST(Box, in_two_parts_folds_shut_as_well_and_holds_by_two_seams) {
  for (const std::string kind : {"tuck", "sleeve"}) {
    BoxWishes wishes = usual_box(kind);
    wishes.parts = game::NetParts::two;
    const auto made = make_box(wishes, usual_deck());
    ASSERT_TRUE(made.value) << kind;
    EXPECT_EQ(whole(worse_than_notes(made.found)), "") << kind;
    EXPECT_TRUE(made.value->fit.collisions.empty()) << kind;
    for (const fold::Part& part : made.value->model.parts) {
      EXPECT_THAT(fold::faults_of(part.net), testing::IsEmpty()) << kind;
    }
    int joined = 0;
    for (const fold::Contact& seam : made.value->fit.seams) {
      const std::string& flap = fold::panel(made.value->model, seam.flap).name;
      joined += flap.ends_with("glue flap") || flap.ends_with("joining flap") ? 1 : 0;
      EXPECT_NEAR(seam.area, seam.of, 1e-4) << flap << " lies on its panel with all of its glue";
      EXPECT_NEAR(seam.apart.value, 0, 1e-9) << flap;
    }
    EXPECT_EQ(joined, 2) << kind;
  }
}

TEST(Box, in_two_parts_leaves_the_same_room) {
  for (const std::string kind : {"tuck", "sleeve"}) {
    BoxWishes wishes = usual_box(kind);
    wishes.parts = game::NetParts::two;
    const auto made = make_box(wishes, usual_deck());
    const fold::Block room = made.value->fit.clear.size, deck = thickest(made.value->deck);
    EXPECT_NEAR((room.width - deck.width).value, 0.6, 1e-9) << kind;
    EXPECT_NEAR((room.height - deck.height).value, 1.0, 1e-9) << kind;
    EXPECT_NEAR((room.depth - deck.depth).value, 0.6, 1e-9) << kind;
  }
}

TEST(Box, in_two_parts_has_halves_of_nearly_half_the_width) {
  BoxWishes wishes = usual_box();
  const auto one = make_box(wishes, usual_deck());
  wishes.parts = game::NetParts::two;
  const auto two = make_box(wishes, usual_deck());
  ASSERT_EQ(two.value->model.parts.size(), 2U);
  EXPECT_EQ(two.value->model.parts[0].net.name, "front");
  EXPECT_EQ(two.value->model.parts[1].net.name, "back");
  const auto width = [](const fold::Net& net) {
    return bounds(fold::cut_outline(net).front().outer).size.width.value;
  };
  const double flap = 12;
  for (const fold::Part& part : two.value->model.parts) {
    EXPECT_NEAR(width(part.net), (width(one.value->model.parts[0].net) - flap) / 2 + flap, 1);
  }
}

TEST(Box, follows_the_number_of_cards) {
  Contents more = usual_deck();
  more.cards = 108;
  const auto one = make_box(usual_box(), usual_deck()), two = make_box(usual_box(), more);
  const Mm wider = two.value->plan.inside.depth - one.value->plan.inside.depth;
  EXPECT_NEAR(wider.value,
              thickest(two.value->deck).depth.value - thickest(one.value->deck).depth.value, 1e-9);
}

TEST(Box, notes_grain_and_creases_and_nothing_else) {
  EXPECT_EQ(whole(make_box(usual_box(), usual_deck()).found),
            "note box.grain game.toml:9:1 on /\n"
            "the grain of the board should run left and right on the net\n"
            "it then runs round the box, and the walls bulge least\n"
            "hint: bend a sheet both ways: it bends more easily round the grain\n"
            "note box.crease-width game.toml:9:1 on /\n"
            "a die for this board of 0.40 mm has creasing channels 1.31 mm wide and 0.40 mm deep\n"
            "1.5 times the board and a rule of 0.71 mm\n");
}

TEST(Box, of_impossible_contents_is_not_made_and_says_why) {
  const auto said = [&](int cards, double width, double height) {
    Contents contents = usual_deck();
    contents.cards = cards;
    contents.card = {Mm{width}, Mm{height}};
    EXPECT_FALSE(make_box(usual_box(), contents).value);
    return findings(usual_box(), contents);
  };
  const std::string start = "error box.impossible-size game.toml:9:1 on /\n";
  const std::string one_copy = "hint: give a row of cards.csv one copy or more\n";
  const std::string in_mm = "hint: give widths and heights in millimetres\n";
  EXPECT_EQ(said(0, 63.5, 88.9),
            start + "a box for 0 cards cannot be made; 1 to 1000 cards can\n" + one_copy);
  EXPECT_EQ(said(-3, 63.5, 88.9),
            start + "a box for -3 cards cannot be made; 1 to 1000 cards can\n" + one_copy);
  EXPECT_EQ(said(2000, 63.5, 88.9), start +
                                        "a box for 2000 cards cannot be made; 1 to 1000 cards can\n"
                                        "hint: put the deck into several boxes\n");
  EXPECT_EQ(
      said(54, 5, 88.9),
      start + "the cards have a width of 5.0 mm; a box can be made for 20 to 300 mm\n" + in_mm);
  EXPECT_EQ(
      said(54, 0, 88.9),
      start + "the cards have a width of 0.00 mm; a box can be made for 20 to 300 mm\n" + in_mm);
  EXPECT_EQ(
      said(54, 63.5, -1),
      start + "the cards have a height of -1.0 mm; a box can be made for 20 to 300 mm\n" + in_mm);
}

TEST(Box, of_too_much_paper_is_not_made) {
  Contents contents = usual_deck();
  contents.cards = 1000;
  contents.stock.caliper = Mm{0.4};
  EXPECT_EQ(findings(usual_box(), contents),
            "error box.impossible-size game.toml:9:1 on /\n"
            "the deck is up to 428.0 mm high; a box can be made for 300 mm\n"
            "hint: check the thickness of a card, or put the deck into several boxes\n");
}

TEST(Box, that_is_too_small_inside_says_by_how_much) {
  BoxWishes wishes = usual_box();
  wishes.inside = {Mm{64.5}, Mm{90.4}, Mm{17.2}};
  wishes.places["inside"] = {FileName("game.toml"), 11, 10, 18};
  EXPECT_EQ(findings(wishes, usual_deck()),
            "error box.deck-does-not-fit game.toml:11:10 on /\n"
            "the box is 15.8 mm deep inside and the deck up to 17.5 mm\n"
            "measured between the walls and the flaps that lie inside of them\n"
            "hint: make inside 1.8 mm larger that way, or leave it out\n");
}

TEST(Box, whose_dust_flaps_meet_is_an_error_that_names_them) {
  BoxWishes wishes = usual_box();
  wishes.dust_flap = Mm{40};
  const auto made = make_box(wishes, usual_deck());
  ASSERT_TRUE(made.value);
  const Diagnostics found = only(Id::box_panels_collide, made.found);
  ASSERT_EQ(found.size(), 2U);
  EXPECT_THAT(found[0].message, HasSubstr("bottom right dust flap and bottom left dust flap go "));
  EXPECT_EQ(found[0].details.front(), "in step 4 of 7: fold the bottom dust flaps in");
}

TEST(Box, whose_board_is_thicker_than_a_flap_is_not_made) {
  BoxWishes wishes = usual_box();
  wishes.board.caliper = Mm{1.2};
  wishes.glue_flap = Mm{1};
  wishes.places["glue-flap"] = {FileName("game.toml"), 12, 13, 1};
  EXPECT_EQ(findings(wishes, usual_deck()),
            "error box.caliper-exceeds-flap game.toml:12:13 on /\n"
            "the glue flap is 1.0 mm long and the board 1.2 mm thick\n"
            "hint: write glue-flap = 12, or take thinner board\n");
}

TEST(Box, whose_tuck_flap_does_not_go_in_or_hold_says_what_does) {
  BoxWishes wishes = usual_box();
  wishes.tuck = Mm{90};
  EXPECT_FALSE(make_box(wishes, usual_deck()).value);
  EXPECT_THAT(findings(wishes, usual_deck()), HasSubstr("a tuck flap of 90.0 mm does not go into"));
  wishes.tuck = Mm{4};
  EXPECT_THAT(findings(wishes, usual_deck()),
              HasSubstr("top tuck flap reaches 4.0 mm behind front; it needs 5.0 mm to hold\n"));
}

TEST(Box, of_thin_board_is_warned_of) {
  BoxWishes wishes = usual_box();
  wishes.board.caliper = Mm{0.2};
  EXPECT_EQ(findings(wishes, usual_deck()),
            "warning box.board-too-thin game.toml:9:1 on /\n"
            "the board is 0.20 mm thick; a box wants 0.25 mm or more\n"
            "hint: take board of 0.30 to 0.45 mm, or glue two sheets together\n");
}

TEST(Box, for_a_few_cards_in_thick_board_is_warned_of) {
  Contents few = usual_deck();
  few.cards = 4;
  BoxWishes wishes = usual_box();
  wishes.board.caliper = Mm{0.6};
  const auto made = make_box(wishes, few);
  ASSERT_TRUE(made.value);
  EXPECT_FALSE(any_errors(made.found)) << whole(made.found);
  EXPECT_EQ(whole(only(Id::box_tuck_bends_sharply, made.found)),
            "warning box.tuck-bends-sharply game.toml:9:1 on /\n"
            "the tuck flap is bent to a radius of 3.9 mm as it goes in; board of 0.60 mm wants 6.0 "
            "mm\n"
            "hint: roll the flap over a pencil before closing, or write kind = \"sleeve\"\n");
  EXPECT_EQ(whole(only(Id::box_panel_too_small, made.found)),
            "warning box.panel-too-small game.toml:9:1 on /\n"
            "bottom lid is 3.9 mm from crease to crease; fingers fold 5.0 mm or more\n"
            "hint: fold it over a metal rule\n");
}

TEST(Box, for_lots_of_paper_that_differ_much_says_that_a_deck_may_rattle) {
  Contents thick = usual_deck();
  thick.cards = 200;
  EXPECT_EQ(findings(usual_box(), thick),
            "warning box.deck-rattles game.toml:9:1 on /\n"
            "the box is 64.8 mm deep inside and the deck may be only 57.0 mm\n"
            "that leaves 7.8 mm; 3.0 mm is the most that is not said\n"
            "the deck is 57.0 mm to 64.2 mm, as lots of paper differ\n"
            "hint: measure a pile of your cards and write it under [box]: pile = [60, 19.4]\n");
}

TEST(Box, is_nothing_for_a_game_without_one) {
  EXPECT_FALSE(make_box(game::Game{}).value);
  EXPECT_TRUE(make_box(game::Game{}).found.empty());
}

TEST(Box, counts_all_copies_of_a_game) {
  game::Game game;
  game.box = usual_box();
  game.stock.caliper = Mm{0.3};
  game.cards.resize(2);
  game.cards[0].copies = 50;
  game.cards[1].copies = 4;
  EXPECT_NEAR(make_box(game).value->deck.pile.typical.value, 16.2, 1e-9);
}

/// Random decks and boards as tests/bench/boxes.cpp makes 2,000 of for each kind; a few here.
TEST(Box, of_random_decks_folds_shut_holds_them_and_has_sound_nets) {
  std::mt19937_64 chance(7);
  const auto between = [&](double low, double high) {
    return low + (high - low) * static_cast<double>(chance() >> 11) * 0x1p-53;
  };
  for (const BoxKind& kind : box_kinds()) {
    for (int i = 0; i < 12; ++i) {
      BoxWishes wishes = usual_box(std::string(kind.word));
      wishes.board.caliper = Mm{between(0.2, 0.6)};
      wishes.ends = i % 2 ? game::Ends::straight : game::Ends::reverse;
      wishes.locks = i % 3 ? game::Locks::slits : game::Locks::none;
      Contents contents{
          static_cast<int>(between(10, 201)), {Mm{between(40, 120)}, Mm{between(40, 120)}}, {}};
      contents.stock.caliper = Mm{between(0.2, 0.6)};
      const auto made = make_box(wishes, contents);
      ASSERT_TRUE(made.value) << whole(made.found);
      EXPECT_FALSE(any_errors(made.found)) << whole(made.found);
      const fold::Block room = made.value->fit.clear.size, deck = thickest(made.value->deck);
      for (const Mm spare :
           {room.width - deck.width, room.height - deck.height, room.depth - deck.depth}) {
        EXPECT_GE(spare, Mm{});
        EXPECT_LE(spare, wishes.slack);
      }
      for (const fold::Part& part : made.value->model.parts) {
        EXPECT_THAT(fold::faults_of(part.net), testing::IsEmpty());
      }
    }
  }
}

/// Every length of [box] at random within what game.toml takes: whatever is asked for is drawn or
/// refused with a reason, and takes no time to speak of.
TEST(Box, of_any_wishes_is_drawn_or_refused_with_a_reason) {
  std::mt19937_64 chance(11);
  const auto part = [&] { return static_cast<double>(chance() >> 11) * 0x1p-53; };
  const auto size = [&](double low, double high) {
    return Mm{low * std::pow(high / low, part())};  // small ones as often as large ones
  };
  int sound = 0;
  for (int i = 0; i < 150; ++i) {
    BoxWishes wishes = usual_box(std::string(box_kinds()[chance() % box_kinds().size()].word));
    wishes.board.caliper = i % 4 == 1 ? size(0.02, 5) : size(0.15, 0.8);
    if (i % 4 == 0) wishes.inside = {size(0.01, 2000), size(0.01, 2000), size(0.01, 2000)};
    if (i % 3 == 0) wishes.tuck = size(1, 200);
    if (i % 5 < 2) wishes.dust_flap = size(1, 500);
    if (i % 7 < 3) wishes.notch = size(0.1, 100);
    if (i % 4 == 0) wishes.lid_height = size(1, 1000);
    wishes.corner = size(0.01, 100);
    wishes.glue_flap = size(1, 100);
    wishes.tuck_play = size(0.01, 10);
    wishes.fit = size(0.01, 10);
    wishes.leaflet = size(0.01, 50);
    Contents contents = usual_deck();
    contents.cards = static_cast<int>(size(1, i % 4 == 2 ? 3000 : 300).value);
    contents.card = {size(18, 320), size(18, 320)};
    const auto made = make_box(wishes, contents);
    EXPECT_TRUE(made.value || any_errors(made.found)) << i;
    if (!made.value) continue;
    sound += any_errors(made.found) ? 0 : 1;
    for (const fold::Part& net : made.value->model.parts) {
      EXPECT_THAT(fold::faults_of(net.net), testing::IsEmpty()) << i;
    }
  }
  EXPECT_GT(sound, 10);  // so that not everything was refused
}

}  // namespace
}  // namespace quoin::pieces
