#include "pieces/mat/mat.h"

#include <gtest/gtest.h>

#include "game/starter_mat.h"
#include "pieces/card/inspect_fixture.h"

namespace quoin::pieces {
namespace {

constexpr const char* ground =
    "[[element]]\nid = \"ground\"\nkind = \"shape\"\ninset = \"bleed\"\nfill = \"#e8e0d0\"\n";

/// A game with cards of that size, two suits, and a mat of 400 x 300 mm on which `layout` is drawn
/// over a plain ground.
class MatGame {
 public:
  explicit MatGame(const std::string& layout, const std::string& keys = "",
                   const std::string& card = "63.5x88.9", const std::string& size = "400x300") {
    world.put("game.toml", "[game]\ntitle = \"Tides\"\n[card]\nsize = \"" + card +
                               "\"\ncorner = 3.5\n[suits.shell]\ncolour = \"#c9573d\"\n"
                               "[suits.weed]\ncolour = \"#5c6b2a\"\n[mat]\nsize = \"" +
                               size + "\"\n" + keys);
    world.put("layouts/face.toml", ground);
    world.put("layouts/mat.toml", ground + layout);
    world.put("cards.csv", "id,suit\nW-01,weed\nS-01,shell\n");
    world.put("art/small.png",
              DrawnFace()
                  .picture_file("art/small.png", 40, 30, [](int, int) { return 0x336699U; })
                  ->bytes());
    Checked<game::Game> read = game::read_game(world);
    game = std::move(read.value);
    found = std::move(read.found);
    const Studio studio(game, shelf, found);
    Checked<std::optional<Mat>> made = make_mat(studio, typesetter);
    mat = std::move(made.value);
    for (Diagnostic& one : made.found) found.push_back(std::move(one));
  }

  MemoryWorld world;
  PictureShelf shelf{world};
  Typesetter typesetter{{}};
  game::Game game;
  std::optional<Mat> mat;
  Diagnostics found;
};

std::string place(const std::string& id, const std::string& keys) {
  return "[[element]]\nid = \"" + id + "\"\nkind = \"place\"\n" + keys + "\n";
}

TEST(Mat, makes_places_as_large_as_a_card_and_its_clearance) {
  const MatGame made(place("draw", "at = [20, 30]"));
  ASSERT_TRUE(made.mat);
  EXPECT_EQ(whole(made.found), "");
  ASSERT_EQ(made.mat->places.size(), 1U);
  const CardPlace& draw = made.mat->places.front();
  EXPECT_EQ(draw.each, (Size{Mm{66.5}, Mm{91.9}}));
  EXPECT_EQ(draw.card, (Size{Mm{63.5}, Mm{88.9}}));
  EXPECT_TRUE(nearly_equal(draw.map(Point{}).x, Mm{20 + 33.25}));
  EXPECT_TRUE(nearly_equal(draw.map(Point{}).y, Mm{30 + 45.95}));
}

TEST(Mat, has_places_that_follow_the_size_of_the_cards) {
  const std::string row = place("row", "arrange = \"row\"\ncount = 4\ninset = 0");
  const MatGame poker(row), mini(row, "", "44x68");
  const auto step = [](const MatGame& made) {
    return made.mat->places[1].map(Point{}) - made.mat->places[0].map(Point{});
  };
  EXPECT_TRUE(nearly_equal(step(poker).x, Mm{66.5 + 4}));
  EXPECT_TRUE(nearly_equal(step(mini).x, Mm{47 + 4}));
  for (const MatGame* made : {&poker, &mini}) {
    const std::vector<CardPlace>& places = made->mat->places;
    const Point middle =
        places[0].map(Point{}) + (places[3].map(Point{}) - places[0].map(Point{})) * 0.5;
    EXPECT_TRUE(nearly_equal(middle.x, Mm{200})) << "inset = 0 lays the whole in the middle";
    EXPECT_TRUE(nearly_equal(middle.y, Mm{150}));
  }
}

TEST(Mat, turns_places_and_groups_of_them) {
  const MatGame made(
      place("lying", "at = [20, 20]\nturned = true") +
      "[[element]]\nid = \"there\"\nkind = \"group\"\nat = [200, 150]\nsize = [100, 100]\n"
      "rotation = 180\n[[element.element]]\nid = \"far\"\nkind = \"place\"\nat = [0, 0]\n");
  ASSERT_EQ(made.mat->places.size(), 2U);
  EXPECT_EQ(made.mat->places[0].card, (Size{Mm{88.9}, Mm{63.5}}));
  const Point far = made.mat->places[1].map(Point{});
  EXPECT_TRUE(nearly_equal(far.x, Mm{300 - 33.25}));
  EXPECT_TRUE(nearly_equal(far.y, Mm{250 - 45.95}));
}

TEST(Mat, draws_one_outline_for_each_place_and_takes_the_suits_colour) {
  const MatGame made(
      place("kept", "arrange = \"row\"\nsuits = [\"shell\", \"weed\"]\nat = [20, 20]"));
  ASSERT_TRUE(made.mat);
  EXPECT_EQ(made.mat->places.size(), 2U) << "one for each suit";
  const Item& drawn = made.mat->scene.items.back();
  const auto& parts = std::get<GroupItem>(drawn.what).items;
  ASSERT_EQ(parts.size(), 2U);
  EXPECT_EQ(std::get<ShapeItem>(parts[0].what).stroke.paint, Paint{*parse_colour("#c9573d")});
  EXPECT_EQ(std::get<ShapeItem>(parts[1].what).stroke.paint, Paint{*parse_colour("#5c6b2a")});
}

TEST(StarterMat, has_nothing_to_find_fault_with_whatever_the_cards_measure) {
  for (const char* card : {"41x63", "63.5x88.9", "70x120", "120x70", "88.9x127", "150x200"}) {
    MatGame made("", "", card, "594x420");
    made.world.put("layouts/mat.toml", game::starter_mat_layout(made.game));
    const Checked<game::Game> read = game::read_game(made.world);
    Diagnostics found = read.found;
    const Studio studio(read.value, made.shelf, found);
    const Checked<std::optional<Mat>> mat = make_mat(studio, made.typesetter);
    found.insert(found.end(), mat.found.begin(), mat.found.end());
    EXPECT_EQ(whole(found), "") << card;
    ASSERT_TRUE(mat.value) << card;
    EXPECT_GE(mat.value->places.size(), 1U) << card;
  }
}

TEST(CheckMat, tells_of_a_suit_that_there_is_none_of) {
  const MatGame made(place("kept", "suits = [\"shel\"]\nat = [20, 20]"));
  EXPECT_EQ(whole(made.found),
            "error mat.unknown-suit layouts/mat.toml:9:10 on mat/kept\n"
            "there is no suit \"shel\"\n"
            "hint: did you mean \"shell\"?\n");
}

TEST(CheckMat, tells_of_a_place_that_is_smaller_than_a_card) {
  const MatGame forced(place("draw", "each = [60, 95]\nat = [20, 20]"));
  EXPECT_EQ(whole(forced.found),
            "warning mat.place-too-small layouts/mat.toml:6:1 on mat/draw\n"
            "draw has places of 60 x 95 mm; a card is 63.5 x 88.9 mm\n"
            "a card covers the line round its place\n"
            "hint: leave each out, and write clearance = 1.5\n");
  const MatGame negative(place("draw", "clearance = -1\nat = [20, 20]"));
  EXPECT_EQ(only(Id::mat_place_too_small, negative.found).size(), 1U);
}

TEST(CheckMat, tells_of_places_that_lie_over_each_other) {
  const MatGame made(place("draw", "at = [20, 20]") + place("drop", "at = [80, 100]"));
  EXPECT_EQ(whole(made.found),
            "warning mat.places-overlap layouts/mat.toml:10:1 on mat/drop\n"
            "draw and drop lie over each other by 6.5 x 11.9 mm\n"
            "a card on the one covers a part of the other\n"
            "hint: move one of them 6.5 mm to the side\n");
  const MatGame row(place("row", "arrange = \"row\"\ngap = -2\nat = [20, 20]"));
  EXPECT_EQ(only(Id::mat_places_overlap, row.found).size(), 1U);
  const MatGame fan(place("hand", "arrange = \"fan\"\ncount = 5\nat = [60, 60]"));
  EXPECT_EQ(whole(fan.found), "") << "a fan lies over itself on purpose";
}

TEST(CheckMat, tells_of_a_place_near_the_edge_and_off_it) {
  const MatGame near(place("draw", "at = [3, 50]"));
  EXPECT_EQ(whole(near.found),
            "warning mat.place-near-edge layouts/mat.toml:6:1 on mat/draw\n"
            "draw comes within 3.0 mm of the edge of the mat; 8.0 mm is safe\n"
            "where the cut wanders, the line round the place is lost\n"
            "hint: move it 5.0 mm right\n");
  const MatGame off(place("draw", "at = [350, 50]"), "material = \"cloth\"\n");
  EXPECT_EQ(whole(only(Id::mat_place_near_edge, off.found)),
            "warning mat.place-near-edge layouts/mat.toml:6:1 on mat/draw\n"
            "draw reaches 16.5 mm past the hem of the mat; 8.0 mm inside it is safe\n"
            "a card there hangs over the edge\n"
            "hint: move it 24.5 mm left\n");
}

TEST(CheckMat, tells_of_words_beside_a_place_that_lies_well_itself) {
  const MatGame made(place("draw", "at = [30, 9]\nlabel = \"Draw\"\nlabel-place = \"above\""));
  EXPECT_EQ(only(Id::mat_place_near_edge, made.found).size(), 0U);
  EXPECT_EQ(only(Id::card_outside_safe, made.found).size(), 1U);
  const MatGame off(place("draw", "at = [30, -60]\nlabel = \"Draw\"\nnumbered = true"));
  EXPECT_EQ(off.found.size(), 1U) << "what lies off the mat is told of once, as a whole";
}

std::string words(const std::string& keys) {
  return "[[element]]\nid = \"head\"\nkind = \"text\"\ntext = \"Tides\"\nat = [50, 50]\n"
         "size = [200, 40]\n" +
         keys;
}

TEST(CheckMat, tells_of_type_that_is_too_small_from_where_players_sit) {
  const MatGame made(words("type = 9\n"));
  EXPECT_EQ(whole(made.found),
            "warning mat.small-type layouts/mat.toml:9:8 on mat/head\n"
            "the type prints at 9.0 pt; from 600.0 mm off, 11.3 pt is the smallest that is read\n"
            "capitals would be 2.2 mm high and should be 2.8 mm: 16 minutes of arc (ISO 9241-303, "
            "from memory)\n"
            "hint: type = 14.2 is read with ease\n");
  EXPECT_EQ(whole(MatGame(words("type = 12\n")).found), "");
  EXPECT_EQ(whole(MatGame(words("type = 9\nrole = \"decoration\"\n")).found), "");
  EXPECT_EQ(MatGame(words("type = 12\n"), "viewing-distance = 900\n").found.size(), 1U);
}

TEST(CheckMat, asks_of_pictures_what_the_eye_can_tell_apart) {
  const std::string picture =
      "[[element]]\nid = \"art\"\nkind = \"picture\"\npicture = \"art/small.png\"\n"
      "at = [50, 50]\nfit = \"stretch\"\n";
  // 40 px over 10 mm are 101 ppi, over 6 mm 169: from 600 mm off the eye tells 146 apart.
  EXPECT_EQ(only(Id::art_low_resolution, MatGame(picture + "size = [10, 7.5]\n").found).size(), 1U);
  EXPECT_EQ(only(Id::art_low_resolution, MatGame(picture + "size = [6, 4.5]\n").found).size(), 0U);
}

TEST(CheckMat, says_what_a_cards_face_is_told_of_contrast_edges_and_bleed) {
  const MatGame pale(words("type = 20\ncolour = \"#d8d0c0\"\n"));
  EXPECT_EQ(only(Id::card_low_contrast, pale.found).size(), 1U);
  const MatGame edge(
      "[[element]]\nid = \"head\"\nkind = \"text\"\ntext = \"Tides\"\nat = [2, 2]\n"
      "size = [200, 40]\ntype = 20\n");
  EXPECT_EQ(only(Id::card_outside_safe, edge.found).size(), 1U);
  const MatGame bare(
      "[[element]]\nid = \"band\"\nkind = \"shape\"\nat = [0, 0]\nsize = [400, 60]\n"
      "fill = \"#336699\"\n");
  EXPECT_EQ(only(Id::art_short_of_bleed, bare.found).size(), 1U);
}

TEST(Mat, of_the_largest_size_is_looked_at_with_no_more_pixels_than_another) {
  const MatGame made(place("all", "arrange = \"grid\"\ncount = 60\ncolumns = 10\nat = [60, 60]"),
                     "bleed = 50\n", "63.5x88.9", "2000x2000");
  ASSERT_TRUE(made.mat);
  EXPECT_EQ(made.mat->places.size(), 60U);
  EXPECT_EQ(whole(made.found), "");
}

TEST(Mat, with_more_places_than_anybody_looks_after_is_refused_before_it_is_drawn) {
  std::string many;
  for (int i = 0; i < 9; ++i) {
    many += place("p" + std::to_string(i), "arrange = \"grid\"\ncount = 60\nat = [20, 20]");
  }
  const MatGame made(many);
  EXPECT_FALSE(made.mat);
  EXPECT_EQ(whole(made.found),
            "error mat.too-many-places layouts/mat.toml:1:1 on mat/\n"
            "the mat has 540 places; it can have 500\n"
            "hint: take some away, or make the counts of rows and grids smaller\n");
}

// ISO 9241-303 (from memory): capitals of 16 minutes of arc at the least, 20 for comfort; a chart
// of sight at 6 m (ISO 8596, from memory) has letters of 5 minutes, 8.73 mm, for acuity 1.0.
TEST(CapitalHeights, are_those_of_the_visual_angle) {
  const CapitalHeights at_table = capital_heights(Mm{600});
  EXPECT_NEAR(at_table.least.value, 2.793, 0.001);
  EXPECT_NEAR(at_table.comfortable.value, 3.491, 0.001);
  EXPECT_NEAR(capital_heights(Mm{6000}).least.value * 5 / 16, 8.727, 0.01);
}

TEST(FinestPpi, is_one_pixel_a_minute_of_arc) {
  EXPECT_NEAR(finest_ppi(Mm{600}), 145.5, 0.1);
  EXPECT_NEAR(finest_ppi(Mm{291}), 300, 0.5) << "300 ppi is what the eye tells at reading distance";
}

}  // namespace
}  // namespace quoin::pieces
