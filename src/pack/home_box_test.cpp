#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "formats/line_work.h"
#include "pack/net_lines.h"
#include "pack/sample_box.h"
#include "sheets/nest.h"
#include "sheets/sheets.h"

namespace quoin::pack {
namespace {

using testing::SizeIs;

struct Made {
  game::Game game;
  pieces::Box box;
  BoxArt art;
  BoxSheets sheets;
  Document document;
};

Made made(game::Game game, Inside inside, int boxes) {
  pieces::Box box = *box_for_paper(game).value;
  BoxArt art = sample_art(box, inside);
  BoxSheets sheets = lay_box(game, box, art, boxes).value;
  Document document = home_box(game, box, art, sheets);
  return {std::move(game), std::move(box), std::move(art), std::move(sheets), std::move(document)};
}

/// The panels that are seen on the closed box, as they lie on the sheet.
std::vector<Polygon> seen_panels(const Made& work, const NetSheet& sheet) {
  std::vector<Polygon> seen;
  for (const NetPlace& place : sheet.nets) {
    for (const fold::Panel& panel :
         work.box.model.parts[static_cast<std::size_t>(place.net)].net.panels) {
      if (panel.seen != fold::Seen::outside) continue;
      Polygon& laid = seen.emplace_back(panel.outline);
      for (Point& p : laid) p = place.map(p);
    }
  }
  return seen;
}

double on_panels(const Rect& ink, const std::vector<Polygon>& panels) {
  const Polygon box{{ink.left(), ink.top()},
                    {ink.right(), ink.top()},
                    {ink.right(), ink.bottom()},
                    {ink.left(), ink.bottom()}};
  double sum = 0;
  for (const Polygon& panel : panels) {
    for (const Region& region : common(box, panel)) sum += area(region.outer);
  }
  return sum;
}

/// Every tick, glue mark and word of a front keeps off all that stays in sight; only the cut edges,
/// which run round the whole net, are looked at apart.
void expect_nothing_in_sight(Made work) {
  Typesetter typesetter{{}};
  ASSERT_THAT(work.document.pages, SizeIs(work.sheets.sheets.size()));
  for (std::size_t i = 0; i < work.document.pages.size(); ++i) {
    typeset(work.document.pages[i].own, typesetter);
    const auto seen = seen_panels(work, work.sheets.sheets[i]);
    int looked_at = 0;
    for (const Item& item : work.document.pages[i].own.items) {
      if (item.layer == Layer::cut) continue;
      const auto inked = ink(item);
      ASSERT_TRUE(inked);
      EXPECT_LT(on_panels(*inked, seen), 1e-6) << work.box.kind->word << to_string(item.layer);
      ++looked_at;
    }
    EXPECT_GT(looked_at, 10);
  }
}

TEST(HomeBox, draws_nothing_on_its_front_that_stays_in_sight) {
  for (const pieces::BoxKind& kind : pieces::box_kinds()) {
    for (const auto parts : {game::NetParts::one, game::NetParts::two}) {
      game::Game game = sample_game(std::string(kind.word));
      game.box->parts = parts;
      expect_nothing_in_sight(made(game, Inside::plain, 1));
    }
  }
}

TEST(HomeBox, draws_nothing_of_one_net_on_another) {
  for (const pieces::BoxKind& kind : pieces::box_kinds()) {
    game::Game game = sample_game(std::string(kind.word));
    game.card.size = {40_mm, 60_mm};
    game.cards[0].copies = 20;
    Made work = made(game, Inside::plain, 5);
    EXPECT_GT(work.sheets.sheets.front().nets.size(), 2U) << kind.word;
    expect_nothing_in_sight(std::move(work));
  }
}

TEST(HomeBox, draws_the_cut_outside_of_the_net) {
  for (const pieces::BoxKind& kind : pieces::box_kinds()) {
    const Made work = made(sample_game(std::string(kind.word)), Inside::plain, 1);
    for (const fold::Part& part : work.box.model.parts) {
      const auto outline = fold::cut_outline(part.net);
      const auto edges = cut_edges(part.net);
      ASSERT_THAT(edges, SizeIs(2));
      // The black line's middle is half its width out: its inner edge is the cut.
      const auto line = line_work(edges[1]).at(0);
      EXPECT_EQ(line.width, edge_width);
      const auto out = grown(outline, edge_width / 2);
      EXPECT_NEAR(bounds(line.path).size.width.value, bounds(out[0].outer).size.width.value, 1e-6);
      EXPECT_GT(area(out), area(outline));
    }
  }
}

TEST(HomeBox, ticks_both_ends_of_every_crease) {
  for (const pieces::BoxKind& kind : pieces::box_kinds()) {
    const Made work = made(sample_game(std::string(kind.word)), Inside::plain, 1);
    for (const fold::Part& part : work.box.model.parts) {
      const auto ticks = crease_ticks(part.net);
      for (const fold::Hinge& hinge : part.net.hinges) {
        const Vec along = hinge.to - hinge.from;
        const auto in_line = std::count_if(ticks.begin(), ticks.end(), [&](const auto& tick) {
          const auto off = [&](Point p) {
            const Vec v = p - hinge.from;
            return std::abs(v.x.value * along.y.value - v.y.value * along.x.value) /
                   length(along).value;
          };
          return off(tick.from) < 1e-6 && off(tick.to) < 1e-6;
        });
        EXPECT_GE(in_line, 2) << part.net.panels[static_cast<std::size_t>(hinge.child)].name;
      }
    }
  }
}

TEST(HomeBox, with_lines_on_the_back_has_art_alone_on_its_front) {
  game::Game game = sample_game("tuck");
  game.box->lines = game::NetLines::back;
  const Made work = made(game, Inside::plain, 1);
  ASSERT_THAT(work.document.pages, SizeIs(2));
  EXPECT_EQ(work.document.duplex, Flip::long_edge);
  EXPECT_THAT(work.document.pages[0].placements, SizeIs(1));
  for (const Item& item : work.document.pages[0].own.items) EXPECT_EQ(item.layer, Layer::mark);
  EXPECT_THAT(work.document.pages[1].placements, SizeIs(0));
  // Without art there is no front to print.
  const Document plain = home_box(work.game, work.box, {}, work.sheets);
  ASSERT_THAT(plain.pages, SizeIs(1));
  EXPECT_EQ(plain.duplex, Flip::none);
}

/// A pin through the sheet at any place of the net comes out at the same place of the inside.
TEST(HomeBox, has_the_inside_just_behind_the_printed_side) {
  for (const auto flip : {game::FlipEdge::long_edge, game::FlipEdge::short_edge}) {
    game::Game game = sample_game("lid");
    game.sheets.flip = flip;
    const Made work = made(game, Inside::printed, 1);
    ASSERT_GE(work.document.pages.size(), 2U);
    const Page &front = work.document.pages[0], &back = work.document.pages[1];
    ASSERT_EQ(front.placements.size(), back.placements.size());
    const Affine through = sheets::behind(front.media, flip);
    for (std::size_t i = 0; i < front.placements.size(); ++i) {
      EXPECT_EQ(back.placements[i].symbol, front.placements[i].symbol + 1);
      EXPECT_GT(back.placements[i].map.determinant(), 0) << "nothing reads in a mirror";
      for (const Point pin : {Point{5_mm, 7_mm}, Point{60_mm, 20_mm}}) {
        const Point behind = through(front.placements[i].map(pin));
        const Point inside = back.placements[i].map(Point{-pin.x, pin.y});
        EXPECT_NEAR(inside.x.value, behind.x.value, 1e-9);
        EXPECT_NEAR(inside.y.value, behind.y.value, 1e-9);
      }
    }
  }
}

}  // namespace
}  // namespace quoin::pack
