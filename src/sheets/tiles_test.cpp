#include "sheets/tiles.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "sheets/printable.h"

namespace quoin::sheets {
namespace {

const Origin somewhere{FileName("game.toml"), 7, 1, 5};

game::SheetWishes a4(Mm margin = Mm{5}) {
  game::SheetWishes wishes;
  wishes.dead_margin = Insets::all(margin);
  return wishes;
}

TEST(Tiles, lay_a_mat_of_a2_on_eight_sheets_of_a4) {
  const Tiling tiling = lay_tiles({Mm{594}, Mm{420}}, Mm{8}, a4(), somewhere).value();
  EXPECT_EQ(tiling.tiles.size(), 8U);
  EXPECT_EQ(tiling.columns, 4);
  EXPECT_EQ(tiling.rows, 2);
  EXPECT_EQ(tiling.tiles.front().name, "A1");
  EXPECT_EQ(tiling.tiles.back().name, "B4");
  EXPECT_EQ(tiling_words(tiling, "A4"), "8 sheets of A4, portrait, 4 by 2");
}

TEST(Tiles, need_one_sheet_for_what_the_printer_reaches_on_one) {
  const Tiling upright = lay_tiles({Mm{200}, Mm{287}}, Mm{8}, a4(), somewhere).value();
  EXPECT_TRUE(upright.is_one_sheet());
  const Tiling level = lay_tiles({Mm{287}, Mm{200}}, Mm{8}, a4(), somewhere).value();
  EXPECT_TRUE(level.is_one_sheet());
  EXPECT_EQ(tiling_words(level, "A4"), "1 sheet of A4, landscape");
  EXPECT_FALSE(lay_tiles({Mm{201}, Mm{287}}, Mm{8}, a4(), somewhere).value().is_one_sheet());
}

TEST(Tiles, put_seams_in_the_middle_of_what_both_sheets_print) {
  const Tiling tiling = lay_tiles({Mm{594}, Mm{420}}, Mm{8}, a4(), somewhere).value();
  const Tile &left = tiling.tiles[0], &right = tiling.tiles[1];
  ASSERT_EQ(tiling.seam_xs.size(), 3U);
  EXPECT_TRUE(nearly_equal(left.printed.right() - tiling.seam_xs[0], Mm{4}));
  EXPECT_TRUE(nearly_equal(tiling.seam_xs[0] - right.printed.left(), Mm{4}));
  EXPECT_TRUE(nearly_equal(left.shown.right(), right.shown.left()));
}

TEST(Tiles, are_refused_where_margins_leave_no_room_for_the_overlap) {
  const auto refused = lay_tiles({Mm{594}, Mm{420}}, Mm{50}, a4(Mm{60}), somewhere);
  ASSERT_FALSE(refused);
  const Diagnostic& why = refused.why().front();
  EXPECT_EQ(facts(why.id).name, "mat.sheet-too-small");
  EXPECT_EQ(why.message,
            "A4 of 210 x 297 mm leaves 90 x 177 mm to print on, too little for a mat of 594 x 420 "
            "mm with 50 mm of overlap");
}

// By hand, with 64 x 95 mm to print on: (2006 - 8) / 56 is 35.7, and (2006 - 8) / 87 is 23.0 less a
// little, so 36 by 23.
TEST(Tiles, are_refused_when_nobody_would_join_so_many) {
  game::SheetWishes wishes = a4();
  wishes.paper = {Mm{74}, Mm{105}};
  wishes.paper_name = "A7";
  const auto refused = lay_tiles({Mm{2000}, Mm{2000}}, Mm{8}, wishes, somewhere);
  ASSERT_FALSE(refused);
  EXPECT_EQ(refused.why().front().message,
            "a mat of 2000 x 2000 mm takes 828 sheets of A7; nobody joins more than 120");
}

TEST(RowLetters, go_on_after_z_as_columns_of_a_table_do) {
  EXPECT_EQ(row_letters(0), "A");
  EXPECT_EQ(row_letters(25), "Z");
  EXPECT_EQ(row_letters(26), "AA");
  EXPECT_EQ(row_letters(27), "AB");
  EXPECT_EQ(row_letters(51), "AZ");
  EXPECT_EQ(row_letters(52), "BA");
}

/// The fewest sheets by trying: sheets are put side by side, one more at a time, until they reach.
int fewest_by_trying(Mm wanted, Mm each, Mm overlap) {
  Mm reached = each;
  int count = 1;
  while (reached < wanted - epsilon) {
    reached += each - overlap;
    ++count;
  }
  return count;
}

struct TileJob {
  Size whole;
  Mm overlap;
  game::SheetWishes wishes;
};

TileJob any_tile_job() {
  const auto tenths = [](int from, int to) { return Mm{*rc::gen::inRange(from, to + 1) / 10.0}; };
  TileJob job;
  job.whole = {tenths(1000, 20000), tenths(1000, 20000)};
  job.overlap = tenths(50, 300);
  const Size papers[] = {{Mm{210}, Mm{297}},
                         {Mm{215.9}, Mm{279.4}},
                         {Mm{297}, Mm{420}},
                         {Mm{148}, Mm{210}},
                         {Mm{250}, Mm{250}}};
  job.wishes.paper = papers[*rc::gen::inRange(0, 5)];
  job.wishes.dead_margin = {tenths(0, 200), tenths(0, 200), tenths(0, 200), tenths(0, 200)};
  return job;
}

int fewest_sheets(const TileJob& job) {
  int best = 1 << 20;
  for (const Size paper : {job.wishes.paper, turned(job.wishes.paper)}) {
    const Size each = printable(job.wishes, paper).size;
    if (fits(job.whole.width, each.width) && fits(job.whole.height, each.height)) return 1;
    if (each.width <= job.overlap * 2 || each.height <= job.overlap * 2) continue;
    const int across = fewest_by_trying(job.whole.width + tile_rim * 2, each.width, job.overlap);
    const int down = fewest_by_trying(job.whole.height + tile_rim * 2, each.height, job.overlap);
    best = std::min(best, across * down);
  }
  return best;
}

RC_GTEST_PROP(Tiles, are_the_fewest_and_show_every_place_of_the_whole_once, ()) {
  const TileJob job = any_tile_job();
  const int fewest = fewest_sheets(job);
  const auto laid = lay_tiles(job.whole, job.overlap, job.wishes, somewhere);
  if (fewest > most_tiles) {
    RC_ASSERT(!laid);
    return;
  }
  RC_ASSERT(static_cast<bool>(laid));
  const Tiling& tiling = laid.value();
  RC_ASSERT(static_cast<int>(tiling.tiles.size()) == fewest);
  double shown = 0;
  for (const Tile& tile : tiling.tiles) {
    RC_ASSERT(lies_in(bounds(tiling.to_page(tile), tile.printed), tiling.printable));
    RC_ASSERT(lies_in(tile.shown, tile.printed));
    if (const auto part = overlap(tile.shown, Rect{{}, job.whole})) {
      shown += part->size.width.value * part->size.height.value;
    }
  }
  RC_ASSERT(std::abs(shown - job.whole.width.value * job.whole.height.value) < 1);
  for (int i = 0; i < 50; ++i) {
    const Point place{job.whole.width * (*rc::gen::inRange(0, 1000) / 1000.0),
                      job.whole.height * (*rc::gen::inRange(0, 1000) / 1000.0)};
    int times = 0;
    for (const Tile& tile : tiling.tiles) {
      const bool inside = place.x >= tile.shown.left() && place.x < tile.shown.right() &&
                          place.y >= tile.shown.top() && place.y < tile.shown.bottom();
      times += inside ? 1 : 0;
    }
    RC_ASSERT(times == 1);
  }
}

RC_GTEST_PROP(Tiles, leave_a_rim_for_lines_and_marks_when_there_are_several, ()) {
  const TileJob job = any_tile_job();
  const auto laid = lay_tiles(job.whole, job.overlap, job.wishes, somewhere);
  if (!laid || laid.value().is_one_sheet()) return;
  const Tiling& tiling = laid.value();
  const Rect all = covering(tiling.tiles.front().printed, tiling.tiles.back().printed);
  RC_ASSERT(lies_in(grown(Rect{{}, job.whole}, tile_rim), all));
  for (std::size_t i = 0; i + 1 < static_cast<std::size_t>(tiling.columns); ++i) {
    const Mm both = tiling.tiles[i].printed.right() - tiling.tiles[i + 1].printed.left();
    RC_ASSERT(both >= tiling.overlap - epsilon);
  }
}

}  // namespace
}  // namespace quoin::sheets
