#include "pieces/card/face.h"

#include <gtest/gtest.h>

#include "game/game.h"
#include "game/schema.h"
#include "pieces/card/element.h"

namespace quoin::pieces {
namespace {

constexpr const char* square_svg =
    R"(<svg xmlns="http://www.w3.org/2000/svg" width="10" height="10">
<rect width="10" height="10"/></svg>)";

/// A game of one card whose layout and row are given, drawn.
class DrawnGame {
 public:
  DrawnGame(const std::string& layout, const std::string& header, const std::string& row,
            const std::string& more = "") {
    world_.put("game.toml", "[game]\ntitle = \"T\"\n[card]\nsize = \"63.5x88.9\"\n" + more +
                                "\n[decks.main]\nback = \"layouts/face.toml\"\n[[layouts]]\nfile = "
                                "\"layouts/face.toml\"\n");
    world_.put("layouts/face.toml", layout);
    world_.put("cards.csv", header + "\n" + row + "\n");
    world_.put("art/square.svg", square_svg);
    Checked<game::Game> read = game::read_game(world_);
    for (const Diagnostic& d : read.found) {
      if (d.severity == Severity::error) ADD_FAILURE() << to_string(d.origin) << " " << d.message;
    }
    game_ = std::move(read.value);
    shelf_ = std::make_unique<PictureShelf>(world_);
    const Studio studio(game_, *shelf_, found);
    if (!game_.cards.empty()) scene = front(studio, game_.cards.front(), found);
  }

  [[nodiscard]] const Item& item(std::size_t i) const { return scene.items.at(i); }
  [[nodiscard]] const game::Game& game() const { return game_; }

  Scene scene;
  Diagnostics found;

 private:
  MemoryWorld world_;
  game::Game game_;
  std::unique_ptr<PictureShelf> shelf_;
};

Rect shape_bounds(const Item& item) { return bounds(std::get<ShapeItem>(item.what).path); }

TEST(Face, places_an_element_by_its_corner_and_size) {
  const DrawnGame drawn(R"([[element]]
id = "panel"
kind = "shape"
at = [5, 6]
size = [20, 30]
fill = "#123456")",
                        "id", "a");
  EXPECT_EQ(shape_bounds(drawn.item(0)), (Rect{{5_mm, 6_mm}, {20_mm, 30_mm}}));
}

TEST(Face, lets_an_element_with_a_corner_alone_reach_the_far_corner) {
  const DrawnGame drawn(R"([[element]]
id = "panel"
kind = "shape"
at = [5, 6]
fill = "#123456")",
                        "id", "a");
  EXPECT_EQ(shape_bounds(drawn.item(0)), (Rect{{5_mm, 6_mm}, {58.5_mm, 82.9_mm}}));
}

TEST(Face, measures_an_inset_from_the_trim_and_reaches_into_the_bleed) {
  const DrawnGame drawn(R"([[element]]
id = "ground"
kind = "shape"
inset = "bleed"
fill = "#123456"
[[element]]
id = "frame"
kind = "shape"
inset = 4
fill = "#123456")",
                        "id", "a");
  EXPECT_EQ(shape_bounds(drawn.item(0)), (Rect{{-3_mm, -3_mm}, {Mm{69.5}, Mm{94.9}}}));
  EXPECT_EQ(shape_bounds(drawn.item(1)), (Rect{{4_mm, 4_mm}, {Mm{55.5}, Mm{80.9}}}));
}

TEST(Face, takes_any_property_from_the_row) {
  const DrawnGame drawn(R"([[element]]
id = "panel"
kind = "shape"
at = [5, "{y}"]
size = [20, 30]
nudge = ["{dx}", 0]
rotation = "{tilt}"
fill = "{paint}")",
                        "id,y,dx,tilt,paint", "a,7.5,-1.25,90,#ff0000");
  ASSERT_TRUE(drawn.found.empty()) << drawn.found.front().message;
  EXPECT_EQ(shape_bounds(drawn.item(0)).at, (Point{Mm{3.75}, Mm{7.5}}));
  EXPECT_EQ(std::get<Colour>(std::get<ShapeItem>(drawn.item(0).what).fill), (Colour{1, 0, 0, 1}));
  EXPECT_EQ(drawn.item(0).map.a, 0);
  EXPECT_EQ(drawn.item(0).map.b, 1);
}

TEST(Face, keeps_a_default_where_the_row_is_empty) {
  const DrawnGame drawn(R"([[element]]
id = "panel"
kind = "shape"
at = [5, 5]
size = [20, 30]
nudge = ["{dx}", 0]
opacity = "{veil}"
fill = "#123")",
                        "id,dx,veil", "a,,");
  ASSERT_TRUE(drawn.found.empty());
  EXPECT_EQ(shape_bounds(drawn.item(0)).at, (Point{5_mm, 5_mm}));
  EXPECT_EQ(drawn.item(0).opacity, 1);
}

TEST(Face, says_which_cell_holds_no_number) {
  const DrawnGame drawn(R"([[element]]
id = "panel"
kind = "shape"
at = [5, 5]
size = [20, 30]
rotation = "{tilt}"
fill = "#123")",
                        "id,tilt", "a,\"3,5\"");
  ASSERT_EQ(drawn.found.size(), 1U);
  EXPECT_EQ(drawn.found[0].message, "rotation needs a number, not \"3,5\"");
  EXPECT_EQ(drawn.found[0].hints, std::vector<std::string>{"write decimals with a point: 3.5"});
  EXPECT_EQ(to_string(drawn.found[0].origin), "cards.csv:2:3");
  EXPECT_EQ(drawn.found[0].place, (PiecePlace{"a", "panel"}));
}

TEST(Face, names_the_nearest_colour) {
  const DrawnGame drawn(R"([[element]]
id = "panel"
kind = "shape"
at = [5, 5]
size = [20, 30]
fill = "{paint}")",
                        "id,paint", "a,imk", "[colours]\nink = \"#1d2b33\"");
  ASSERT_EQ(drawn.found.size(), 1U);
  EXPECT_EQ(drawn.found[0].message, "there is no colour \"imk\"");
  EXPECT_EQ(drawn.found[0].hints, std::vector<std::string>{"did you mean \"ink\"?"});
}

TEST(Face, says_where_path_data_stop_making_sense) {
  const DrawnGame drawn(R"([[element]]
id = "wave"
kind = "shape"
shape = "path"
at = [0, 0]
size = [10, 10]
path = "{curve}"
fill = "#123")",
                        "id,curve", "a,M0 0 L5 x");
  ASSERT_EQ(drawn.found.size(), 1U);
  EXPECT_EQ(drawn.found[0].id, Id::face_path_data);
  EXPECT_EQ(to_string(drawn.found[0].origin), "cards.csv:2:3");
}

TEST(Repeat, draws_as_many_symbols_as_the_row_says) {
  const DrawnGame drawn(R"([[element]]
id = "pips"
kind = "repeat"
picture = "art/square.svg"
count = "{rank}"
arrange = "row"
each = [4, 4]
gap = 1
align = "left"
at = [5, 5]
size = [30, 4])",
                        "id,rank", "a,3");
  ASSERT_TRUE(drawn.found.empty()) << drawn.found.front().message;
  const auto& group = std::get<GroupItem>(drawn.item(0).what);
  ASSERT_EQ(group.items.size(), 3U);
  EXPECT_EQ(std::get<PictureItem>(group.items[2].what).to, (Rect{{15_mm, 5_mm}, {4_mm, 4_mm}}));
}

TEST(Repeat, sets_a_ring_evenly_and_upright) {
  const DrawnGame drawn(R"([[element]]
id = "ring"
kind = "repeat"
picture = "art/square.svg"
count = 4
arrange = "ring"
each = [4, 4]
at = [0, 0]
size = [20, 20])",
                        "id", "a");
  const auto& group = std::get<GroupItem>(drawn.item(0).what);
  ASSERT_EQ(group.items.size(), 4U);
  EXPECT_EQ(std::get<PictureItem>(group.items[0].what).to.centre(), (Point{10_mm, 2_mm}));
  EXPECT_EQ(std::get<PictureItem>(group.items[1].what).to.centre(), (Point{18_mm, 10_mm}));
  EXPECT_EQ(group.items[1].map, Affine{});
}

TEST(Repeat, refuses_more_copies_than_a_card_can_hold) {
  const DrawnGame drawn(R"([[element]]
id = "pips"
kind = "repeat"
picture = "art/square.svg"
count = "{rank}"
at = [5, 5]
size = [30, 4])",
                        "id,rank", "a,501");
  ASSERT_EQ(drawn.found.size(), 1U);
  EXPECT_EQ(drawn.found[0].message, "501 copies are asked for; a repeat can draw 0 to 500");
}

TEST(Fitted, covers_and_keeps_the_focus_in_view) {
  PictureFacts wide;
  wide.width = 200;
  wide.height = 100;
  const Rect box{{0_mm, 0_mm}, {10_mm, 10_mm}};
  const Rect left = fitted(wide, box, PictureFit::cover, {Mm{0}, Mm{0.5}});
  EXPECT_EQ(left, (Rect{{0_mm, 0_mm}, {20_mm, 10_mm}}));
  const Rect right = fitted(wide, box, PictureFit::cover, {Mm{1}, Mm{0.5}});
  EXPECT_EQ(right, (Rect{{-10_mm, 0_mm}, {20_mm, 10_mm}}));
  const Rect whole = fitted(wide, box, PictureFit::contain, {Mm{0.5}, Mm{0.5}});
  EXPECT_EQ(whole, (Rect{{0_mm, Mm{2.5}}, {10_mm, 5_mm}}));
  EXPECT_EQ(fitted(wide, box, PictureFit::stretch, {}), box);
}

TEST(Face, draws_a_group_in_the_frame_of_its_box) {
  const DrawnGame drawn(R"([[element]]
id = "corner"
kind = "group"
at = [10, 20]
size = [20, 20]
when = { id = "a" }
[[element.elements]]
id = "dot"
kind = "shape"
shape = "ellipse"
at = [1, 2]
size = [3, 3]
fill = "#123")",
                        "id", "a");
  const auto& group = std::get<GroupItem>(drawn.item(0).what);
  EXPECT_EQ(shape_bounds(group.items.at(0)).at, (Point{11_mm, 22_mm}));
}

TEST(Face, leaves_out_what_its_conditions_do_not_want) {
  const DrawnGame drawn(R"([[element]]
id = "a-only"
kind = "shape"
inset = 0
fill = "#123"
when = { kind = "rule" }
[[element]]
id = "others"
kind = "shape"
inset = 0
fill = "#123"
unless = { kind = "rule" })",
                        "id,kind", "a,tide");
  ASSERT_EQ(drawn.scene.items.size(), 1U);
  EXPECT_EQ(drawn.item(0).element, "others");
}

TEST(Face, strokes_inside_the_edge_when_asked_to) {
  const DrawnGame drawn(R"([[element]]
id = "frame"
kind = "shape"
at = [10, 10]
size = [20, 20]
stroke = { colour = "#000", width = 2, align = "inside" })",
                        "id", "a");
  const auto& group = std::get<GroupItem>(drawn.item(0).what);
  EXPECT_EQ(shape_bounds(group.items.at(0)), (Rect{{11_mm, 11_mm}, {18_mm, 18_mm}}));
}

TEST(BackKey, is_the_same_for_cards_whose_back_uses_nothing_of_the_row) {
  const DrawnGame plain(R"([[element]]
id = "ground"
kind = "shape"
inset = 0
fill = "#123")",
                        "id,suit_colour", "a,#111\nb,#222");
  EXPECT_EQ(back_key(plain.game(), plain.game().cards[0]),
            back_key(plain.game(), plain.game().cards[1]));
  const DrawnGame varied(R"([[element]]
id = "ground"
kind = "shape"
inset = 0
fill = "{suit_colour}")",
                         "id,suit_colour", "a,#111\nb,#222");
  EXPECT_NE(back_key(varied.game(), varied.game().cards[0]),
            back_key(varied.game(), varied.game().cards[1]));
}

}  // namespace
}  // namespace quoin::pieces
