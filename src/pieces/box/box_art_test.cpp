#include "pieces/box/box_art.h"

#include <gtest/gtest.h>

#include <memory>

#include "game/game.h"
#include "media/canvas.h"
#include "pieces/box/printed_net.h"
#include "pieces/card/inspect_fixture.h"

namespace quoin::pieces {
namespace {

constexpr const char* striped_svg =
    R"(<svg xmlns="http://www.w3.org/2000/svg" width="200" height="100">
<rect width="200" height="100" fill="#336699"/></svg>)";

/// A game of 54 cards of 63.5 x 88.9 x 0.30 mm with a box of board of 0.40 mm, whose layout is
/// given.
class BoxGame {
 public:
  explicit BoxGame(const std::string& layout, const std::string& keys = "") {
    world.put("game.toml",
              "[game]\ntitle = \"Tides\"\nsubtitle = \"For two\"\n[card]\nsize = \"63.5x88.9\"\n"
              "[stock]\ncaliper = 0.3\n[box]\ncaliper = 0.4\nlayout = \"layouts/box.toml\"\n" +
                  keys + "\n[decks.main]\n[[layouts]]\nfile = \"layouts/face.toml\"\n");
    world.put("layouts/face.toml",
              "[[element]]\nid = \"name\"\nkind = \"text\"\ntext = \"{id}\"\nat = [5, 5]\n"
              "size = [40, 8]\n");
    world.put("layouts/box.toml", layout);
    world.put("cards.csv", "id,copies\nW-01,54\n");
    world.put("art/shore.svg", striped_svg);
    Checked<game::Game> read = game::read_game(world);
    game = std::move(read.value);
    reading = std::move(read.found);
    box = make_box(game).value;
    const Studio studio(game, shelf, found);
    Checked<std::vector<NetArt>> made = box_art(studio, typesetter, *box);
    art = std::move(made.value);
    for (Diagnostic& one : made.found) found.push_back(std::move(one));
  }

  [[nodiscard]] Rect panel(const char* name) const {
    return bounds(fold::panel(box->model, *fold::find_panel(box->model, name)).outline);
  }

  MemoryWorld world;
  PictureShelf shelf{world};
  Typesetter typesetter{{}};
  game::Game game;
  std::optional<Box> box;
  std::vector<NetArt> art;
  Diagnostics reading, found;
};

std::string shape(const std::string& id, const std::string& keys) {
  return "[[element]]\nid = \"" + id + "\"\nkind = \"shape\"\nfill = \"#336699\"\n" + keys + "\n";
}
std::string words(const std::string& id, const std::string& keys) {
  return "[[element]]\nid = \"" + id + "\"\nkind = \"text\"\n" + keys + "\n";
}

TEST(BoxArt, is_empty_for_every_net_when_the_box_has_no_layout) {
  BoxGame made("", "kind = \"lid\"");
  EXPECT_EQ(made.art.size(), 2U);
  EXPECT_TRUE(made.art[0].printed.items.empty());
  EXPECT_EQ(made.art[0].bleed, Mm{3});
}

TEST(BoxArt, fills_its_panel_to_the_bleed_when_it_says_no_more) {
  BoxGame made(shape("ground", "panel = \"left\""));
  EXPECT_EQ(whole(made.found), "");
  ASSERT_EQ(made.art.at(0).printed.items.size(), 1U);
  const Rect seen = *ink(made.art[0].printed.items[0]);
  const Rect left = made.panel("left");
  EXPECT_NEAR((seen.right() - left.right()).value, 3, 1e-4);
  EXPECT_NEAR((seen.top() - left.top()).value, -3, 1e-4);  // cut beside the dust flap
}

TEST(BoxArt, takes_the_bleed_that_the_box_asks_for) {
  BoxGame made(shape("ground", "panel = \"left\""), "bleed = 1.5");
  EXPECT_EQ(made.art.at(0).bleed, Mm{1.5});
  const Rect seen = *ink(made.art[0].printed.items[0]);
  EXPECT_NEAR((seen.right() - made.panel("left").right()).value, 1.5, 1e-4);
}

TEST(BoxArt, is_measured_from_the_corner_of_the_panel_as_it_is_read) {
  BoxGame made(shape("a", "panel = \"front\"\nat = [5, 6]\nsize = [10, 4]") +
               shape("b", "panel = \"top lid\"\nat = [5, 6]\nsize = [10, 4]"));
  const Rect front = made.panel("front"), lid = made.panel("top lid");
  const Rect a = *ink(made.art.at(0).printed.items.at(0));
  EXPECT_NEAR((a.left() - front.left()).value, 5, 1e-4);
  EXPECT_NEAR((a.top() - front.top()).value, 6, 1e-4);
  const Rect b = *ink(made.art.at(0).printed.items.at(1));
  EXPECT_NEAR((lid.right() - b.right()).value, 5, 1e-4);
  EXPECT_NEAR((lid.bottom() - b.bottom()).value, 6, 1e-4);
}

TEST(BoxArt, of_the_inside_is_drawn_as_seen_from_behind) {
  BoxGame made(shape("a", "panel = \"front\"\nside = \"inside\"\nat = [5, 6]\nsize = [10, 4]"));
  EXPECT_TRUE(made.art.at(0).printed.items.empty());
  const Rect a = *ink(made.art[0].inside.items.at(0));
  const Rect front = made.panel("front");
  EXPECT_NEAR((a.left() + front.right()).value, 5, 1e-4);
}

/// How many pixels of the net's picture within a rectangle are not of the colour.
int strangers(BoxGame& made, Rect where, std::uint32_t colour) {
  ImageCanvas canvas(made.shelf, where.size, 200, ImageCanvas::Background::paper);
  canvas.canvas().transform(Affine::move(Point{} - where.at));
  draw(made.art.at(0).printed, canvas.canvas());
  const Raster raster = canvas.raster();
  int count = 0;
  for (const std::uint32_t pixel : raster.pixels) {
    if ((pixel & 0xffffffU) != colour) ++count;
  }
  return count;
}

TEST(BoxArt, runs_round_corners_without_a_hair_of_paper) {
  BoxGame made(
      "[[element]]\nid = \"shore\"\nkind = \"picture\"\nfit = \"cover\"\n"
      "picture = \"art/shore.svg\"\npanels = [\"front\", \"right\", \"back\", \"left\"]\n");
  EXPECT_EQ(whole(made.found), "");
  const Rect front = made.panel("front"), left = made.panel("left");
  const Rect round = rect_between({front.left() + Mm{1}, front.top() + Mm{20}},
                                  {left.right() + Mm{2}, front.bottom() - Mm{5}});
  EXPECT_EQ(strangers(made, round, 0x336699), 0);
}

TEST(BoxArt, runs_on_over_the_glued_seam) {
  BoxGame made(
      "[[element]]\nid = \"shore\"\nkind = \"shape\"\npanels = [\"left\", \"front\"]\n"
      "fill = { kind = \"linear\", from = [0, 0], to = [1, 0], "
      "stops = [[\"#000000\", 0], [\"#ffffff\", 1]] }\n");
  EXPECT_EQ(whole(made.found), "");
  ASSERT_EQ(made.art.at(0).printed.items.size(), 2U);
  ImageCanvas canvas(made.shelf, {Mm{240}, Mm{20}}, 100, ImageCanvas::Background::paper);
  canvas.canvas().transform(Affine::move({Mm{20}, Mm{-30}}));
  draw(made.art[0].printed, canvas.canvas());
  const Raster raster = canvas.raster();
  const auto grey = [&](Mm x) {
    const int column = static_cast<int>((x + Mm{20}).value / mm_per_inch * 100);
    return static_cast<int>(raster.pixels[static_cast<std::size_t>(raster.width * 20 + column)] &
                            255U);
  };
  // Half a millimetre before the left panel's free edge, and half a millimetre into the front.
  const int before = grey(made.panel("left").right() - Mm{0.5});
  const int after = grey(made.panel("front").left() + Mm{0.5});
  const double share = made.panel("left").size.width /
                       (made.panel("left").size.width + made.panel("front").size.width);
  EXPECT_NEAR(before, share * 255, 8);
  EXPECT_GT(after, before);
  EXPECT_LT(after - before, 9);
}

TEST(BoxArt, leaves_the_glue_bare) {
  BoxGame made(shape("a", "panels = [\"front\", \"right\"]") + shape("b", "panel = \"glue flap\""));
  const fold::Glue& glue = made.box->model.parts[0].net.glue.at(0);
  const Rect flap = bounds(glue.area);
  EXPECT_EQ(strangers(made,
                      {{flap.left() + Mm{1}, flap.top() + Mm{5}},
                       {flap.size.width - Mm{1.5}, flap.size.height - Mm{10}}},
                      0xffffff),
            0);
  EXPECT_EQ(whole(made.found),
            "warning box.nothing-printed layouts/box.toml:6:1 on glue flap/b\n"
            "nothing of \"b\" is printed: it lies where glue goes\n"
            "hint: glue holds on bare board only, so give it another panel\n");
}

TEST(BoxArt, that_names_no_panel_is_told_the_names) {
  BoxGame made(shape("a", ""));
  EXPECT_EQ(
      whole(made.found),
      "error box.no-panel layouts/box.toml:1:1 on box/a\n"
      "the shape \"a\" does not say on which panel of the box it is drawn\n"
      "the panels of this box are front, right, back, left, bottom lid and top lid\n"
      "those that are hidden when it is closed: glue flap, bottom right dust flap, bottom left "
      "dust flap, bottom tuck flap, top right dust flap, top left dust flap and top tuck flap\n"
      "hint: write panel = \"front\", or the name of another panel\n");
}

TEST(BoxArt, that_names_a_panel_of_another_kind_is_told_the_nearest) {
  BoxGame made(shape("a", "panel = \"frnt\""));
  EXPECT_EQ(
      whole(made.found),
      "error box.unknown-panel layouts/box.toml:5:9 on box/a\n"
      "a tuck carton has no panel \"frnt\"\n"
      "the panels of this box are front, right, back, left, bottom lid and top lid\n"
      "those that are hidden when it is closed: glue flap, bottom right dust flap, bottom left "
      "dust flap, bottom tuck flap, top right dust flap, top left dust flap and top tuck flap\n"
      "hint: did you mean \"front\"?\n");
}

TEST(BoxArt, over_panels_that_do_not_meet_is_told_which_follow) {
  BoxGame made(shape("a", "panels = [\"front\", \"back\"]"));
  EXPECT_EQ(whole(made.found),
            "error box.panels-apart layouts/box.toml:5:20 on box/a\n"
            "back does not follow front on the box\n"
            "panels are named from left to right, or from top to bottom, as they are read\n"
            "hint: after front comes right or bottom lid\n");
}

TEST(BoxArt, tells_of_words_across_a_fold) {
  BoxGame made(words("a",
                     "panels = [\"front\", \"right\"]\ntext = \"Tidewrack\"\ntype = 20\n"
                     "at = [50, 20]\nsize = [40, 10]"));
  EXPECT_EQ(whole(made.found),
            "warning box.text-across-crease layouts/box.toml:5:8 on front and right/a\n"
            "the words run from right onto front: 14.5 mm of them are beyond the fold\n"
            "the corner of the box breaks them, and the ink cracks on the fold\n"
            "hint: make it smaller, or move it 14.5 mm right\n");
}

TEST(BoxArt, tells_of_words_that_leave_their_panel) {
  BoxGame made(words("a",
                     "panel = \"front\"\ntext = \"Tidewrack\"\ntype = 20\n"
                     "at = [45, 20]\nsize = [40, 10]"));
  EXPECT_EQ(whole(made.found),
            "warning box.text-across-crease layouts/box.toml:5:8 on front/a\n"
            "the words run from front onto right: 13.8 mm of them are beyond the fold\n"
            "what lies beyond the fold is not printed\n"
            "hint: make it smaller, or move it 13.8 mm left\n");
}

TEST(BoxArt, tells_of_words_near_a_cut) {
  BoxGame made(words("a",
                     "panel = \"left\"\ntext = \"Tide\"\ntype = 8\nalign = \"right\"\n"
                     "inset = [20, 0.8, 60, 2]"));
  EXPECT_EQ(whole(made.found),
            "warning box.text-near-cut layouts/box.toml:5:8 on left/a\n"
            "the words come within 0.9 mm of a cut; 3.0 mm is safe\n"
            "where the cut wanders inwards, letters are lost\n"
            "hint: move the text further in, or say role = \"decoration\"\n");
}

TEST(BoxArt, keeps_an_emblem_off_the_folds) {
  const std::string place = "panels = [\"front\", \"right\"]\nat = [60, 20]\nsize = [10, 10]";
  BoxGame emblem(shape("a", place + "\nrole = \"emblem\""));
  BoxGame plain(shape("a", place));
  EXPECT_EQ(whole(plain.found), "");
  EXPECT_EQ(whole(emblem.found),
            "warning box.emblem-across-crease layouts/box.toml:1:1 on front and right/a\n"
            "the emblem runs from right onto front: 4.6 mm of it is beyond the fold\n"
            "the corner of the box breaks it, and the ink cracks on the fold\n"
            "hint: make it smaller, or move it 4.6 mm right\n");
}

TEST(BoxArt, on_a_hidden_panel_is_told_unless_it_is_meant_so) {
  BoxGame made(shape("a", "panel = \"top tuck flap\"") +
               shape("b", "panel = \"bottom tuck flap\"\nrole = \"decoration\""));
  EXPECT_EQ(whole(made.found),
            "warning box.art-hidden layouts/box.toml:1:1 on top tuck flap/a\n"
            "\"a\" is hidden when the box is closed: top tuck flap lies inside\n"
            "hint: give it a panel that shows; if it is meant so, say role = \"decoration\"\n");
}

TEST(BoxArt, beyond_its_panel_is_told) {
  BoxGame made(shape("a", "panel = \"front\"\nat = [100, 5]\nsize = [10, 10]"));
  EXPECT_EQ(
      whole(made.found),
      "warning box.nothing-printed layouts/box.toml:1:1 on front/a\n"
      "nothing of \"a\" is printed: it lies beyond the edges of front\n"
      "hint: its place is measured from the panel's top left corner; correct at, size or inset\n");
}

TEST(BoxArt, that_ends_at_a_cut_is_told_where_white_will_show) {
  BoxGame made(shape("a", "panel = \"left\"\ninset = 0"));
  EXPECT_EQ(whole(made.found),
            "warning box.short-of-bleed layouts/box.toml:1:1 on left/a\n"
            "88.5 mm of the edge of left have ink up to the cut and none in the 3.0 mm of bleed\n"
            "where the cut wanders outwards, a white edge shows\n"
            "hint: leave out at, size and inset, or write inset = \"bleed\"\n");
}

TEST(BoxArt, is_checked_as_cards_are) {
  BoxGame made(words("a", "panel = \"back\"\ntext = \"small\"\ntype = 4"));
  EXPECT_EQ(whole(made.found),
            "warning card.small-type layouts/box.toml:5:8 on back/a\n"
            "the type prints at 4.0 pt; 6.0 pt is the smallest that reads well\n"
            "letters this small fill in, and cards are read at arm's length\n"
            "hint: set type = 6 or more\n");
}

TEST(BoxArt, knows_the_game_and_the_number_of_cards_but_no_card) {
  BoxGame made(
      words("a", "panel = \"back\"\ntext = \"{game.title}, {box.cards} cards\"\ntype = 12"));
  EXPECT_EQ(whole(made.reading), "");
  const auto* group = std::get_if<GroupItem>(&made.art.at(0).printed.items.at(0).what);
  ASSERT_NE(group, nullptr);
  EXPECT_EQ(std::get<TextItem>(group->items.at(0).what).block.runs.at(0).text, "Tides, 54 cards");
}

}  // namespace
}  // namespace quoin::pieces
