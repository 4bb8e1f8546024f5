#include "pieces/box/panel_run.h"

#include <gtest/gtest.h>

#include <cmath>

#include "pieces/box/box.h"

namespace quoin::pieces {
namespace {

/// A box for 54 cards of 63.5 x 88.9 x 0.30 mm, of board of 0.4 mm.
Box plain_box(const std::string& kind) {
  Contents contents{54, {Mm{63.5}, Mm{88.9}}, {}};
  contents.stock.caliper = Mm{0.30};
  game::BoxWishes wishes;
  wishes.kind = kind;
  wishes.board.caliper = Mm{0.40};
  return *make_box(wishes, contents).value;
}

/// The run of panels by their names, on the side.
std::optional<PanelRun> run_of(const Box& box, PrintSide side,
                               const std::vector<std::string>& names, Mm bleed = Mm{3}) {
  const fold::PanelRef first = *fold::find_panel(box.model, names.front());
  const PrintedNet net = printed_net(box.model, first.part, side);
  std::vector<int> panels;
  for (const std::string& name : names) panels.push_back(panel_named(net, name));
  std::optional<PanelBreak> gap;
  return lay_run(net, panels, bleed, gap);
}

Rect bounds_of(const Box& box, const char* panel) {
  return bounds(fold::panel(box.model, *fold::find_panel(box.model, panel)).outline);
}

/// mm² of the regions that lie in the polygon.
double shared(const std::vector<Region>& regions, const Polygon& polygon) {
  return area(regions) - area(without(regions, {polygon}));
}

TEST(PanelRun, of_one_panel_has_its_size_and_its_corner) {
  const Box box = plain_box("tuck");
  const auto run = run_of(box, PrintSide::outside, {"front"});
  ASSERT_TRUE(run);
  const Rect front = bounds_of(box, "front");
  EXPECT_TRUE(nearly_equal(run->size, front.size));
  const Point corner = run->stretches.at(0).to_net(Point{});
  EXPECT_NEAR((corner.x - front.left()).value, 0, 1e-6);
  EXPECT_NEAR((corner.y - front.top()).value, 0, 1e-6);
}

TEST(PanelRun, of_a_panel_that_reads_upside_down_on_the_net_starts_at_its_far_corner) {
  const Box box = plain_box("tuck");
  const auto run = run_of(box, PrintSide::outside, {"top lid"});
  ASSERT_TRUE(run);
  const Rect lid = bounds_of(box, "top lid");
  const Point corner = run->stretches.at(0).to_net(Point{});
  EXPECT_NEAR((corner.x - lid.right()).value, 0, 1e-6);
  EXPECT_NEAR((corner.y - lid.bottom()).value, 0, 1e-6);
}

TEST(PanelRun, round_the_box_is_as_long_as_its_panels_and_lies_in_one_piece_up_to_the_seam) {
  const Box box = plain_box("tuck");
  Mm round;
  for (const char* name : {"front", "right", "back", "left"}) {
    round += bounds_of(box, name).size.width;
  }
  const auto along = run_of(box, PrintSide::outside, {"front", "right", "back", "left"});
  const auto over_seam = run_of(box, PrintSide::outside, {"left", "front", "right", "back"});
  ASSERT_TRUE(along && over_seam);
  EXPECT_NEAR(along->size.width.value, round.value, 1e-6);
  EXPECT_EQ(along->stretches.size(), 1U);
  EXPECT_NEAR(over_seam->size.width.value, round.value, 1e-6);
  ASSERT_EQ(over_seam->stretches.size(), 2U);
  // The left panel's far edge and the front's near one are one line of the run.
  const Mm seam = bounds_of(box, "left").size.width;
  const Point left = over_seam->stretches[0].to_net(Point{seam, Mm{10}});
  const Point front = over_seam->stretches[1].to_net(Point{seam, Mm{10}});
  EXPECT_NEAR(left.x.value, bounds_of(box, "left").right().value, 1e-6);
  EXPECT_NEAR(front.x.value, bounds_of(box, "front").left().value, 1e-6);
  EXPECT_NEAR(left.y.value, front.y.value, 1e-6);
}

TEST(PanelRun, breaks_where_panels_do_not_follow_each_other) {
  const Box box = plain_box("tuck");
  const PrintedNet net = printed_net(box.model, 0, PrintSide::outside);
  const auto panels = [&](std::initializer_list<const char*> names) {
    std::vector<int> all;
    for (const char* name : names) all.push_back(panel_named(net, name));
    return all;
  };
  const auto breaks = [&](std::initializer_list<const char*> names) {
    std::optional<PanelBreak> gap;
    return !lay_run(net, panels(names), Mm{3}, gap) && gap.has_value();
  };
  EXPECT_TRUE(breaks({"front", "back"}));
  EXPECT_TRUE(breaks({"right", "front"}));  // the wrong way round
  EXPECT_TRUE(breaks({"front", "left"}));
  EXPECT_TRUE(breaks({"front", "top lid"}));  // not the same way up
  EXPECT_TRUE(breaks({"front", "right", "front"}));
  EXPECT_FALSE(breaks({"front", "bottom lid"}));  // downwards
  std::optional<PanelBreak> gap;
  (void)lay_run(net, panels({"front", "back"}), Mm{3}, gap);
  ASSERT_TRUE(gap);
  EXPECT_EQ(gap->followers, panels({"right", "bottom lid"}));
}

TEST(PanelRun, runs_the_other_way_round_on_the_inside) {
  const Box box = plain_box("tuck");
  EXPECT_TRUE(run_of(box, PrintSide::inside, {"left", "back", "right", "front"}));
  EXPECT_TRUE(run_of(box, PrintSide::inside, {"front", "left"}));
  EXPECT_FALSE(run_of(box, PrintSide::inside, {"front", "right"}));
  const auto run = run_of(box, PrintSide::inside, {"front"});
  const Point corner = run->stretches.at(0).to_net(Point{});
  // What is at (x, y) of the inside lies behind (-x, y) of the net.
  EXPECT_NEAR(-corner.x.value, bounds_of(box, "front").right().value, 1e-6);
}

TEST(PanelRun, prints_where_ink_may_be_and_nowhere_else) {
  for (const char* kind : {"tuck", "lid", "sleeve"}) {
    const Box box = plain_box(kind);
    for (int part = 0; part < static_cast<int>(box.model.parts.size()); ++part) {
      const fold::Net& net = box.model.parts[static_cast<std::size_t>(part)].net;
      const std::vector<Region> inked = fold::inked_outline(net, Mm{3});
      std::vector<Polygon> allowed;
      for (const Region& region : inked) allowed.push_back(region.outer);
      const PrintedNet printed = printed_net(box.model, part, PrintSide::outside);
      for (int panel = 0; panel < static_cast<int>(net.panels.size()); ++panel) {
        std::optional<PanelBreak> gap;
        const auto run = lay_run(printed, {panel}, Mm{3}, gap);
        ASSERT_TRUE(run);
        const std::vector<Region>& ink = run->stretches.at(0).ink;
        EXPECT_LT(area(without(ink, allowed)), 0.01) << net.panels[panel].name;
        for (const fold::Glue& glue : net.glue) {
          EXPECT_LT(shared(ink, glue.area), 0.01) << net.panels[panel].name;
        }
        for (int other = 0; other < static_cast<int>(net.panels.size()); ++other) {
          if (other == panel) continue;
          for (const Region& inner : grown({Region{net.panels[other].outline, {}}}, -crease_trap)) {
            EXPECT_LT(shared(ink, inner.outer), 0.01)
                << net.panels[panel].name << " on " << net.panels[other].name;
          }
        }
      }
    }
  }
}

TEST(PanelRun, reaches_the_bleed_past_cuts_and_ends_a_trap_beyond_creases) {
  const Box box = plain_box("tuck");
  const auto run = run_of(box, PrintSide::outside, {"left"});
  const Rect left = bounds_of(box, "left");
  const Rect ink = bounds(run->stretches.at(0).ink.at(0).outer);
  EXPECT_NEAR((ink.right() - left.right()).value, 3, 1e-4);  // the free edge at the seam
  // Beside the crease to the back there is no ink of the left panel.
  const Polygon beyond{{left.left() - Mm{2}, left.top() + Mm{10}},
                       {left.left() - Mm{0.101}, left.top() + Mm{10}},
                       {left.left() - Mm{0.101}, left.bottom() - Mm{10}},
                       {left.left() - Mm{2}, left.bottom() - Mm{10}}};
  for (const Region& region : run->stretches.at(0).ink) {
    EXPECT_EQ(area(common(region.outer, beyond)), 0);
  }
}

TEST(PanelRun, bleeds_over_its_own_edges_and_not_over_those_beside_it) {
  const Box box = plain_box("sleeve");
  const auto run = run_of(box, PrintSide::outside, {"sleeve right"});
  const Rect right = bounds_of(box, "sleeve right");
  const auto bleed_above = [&](Mm from, Mm to) {
    return shared(run->stretches.at(0).ink, {{from, right.top() - Mm{2.5}},
                                             {to, right.top() - Mm{2.5}},
                                             {to, right.top() - Mm{0.5}},
                                             {from, right.top() - Mm{0.5}}});
  };
  EXPECT_NEAR(bleed_above(right.left(), right.right()), right.size.width.value * 2, 0.01);
  EXPECT_LT(bleed_above(right.left() - Mm{3}, right.left() - Mm{0.2}), 0.01);
  EXPECT_LT(bleed_above(right.right() + Mm{0.2}, right.right() + Mm{3}), 0.01);
}

TEST(PrintedNet, keeps_ink_of_the_inside_off_what_glue_is_stuck_to) {
  const Box box = plain_box("tuck");
  const PrintedNet inside = printed_net(box.model, 0, PrintSide::inside);
  ASSERT_EQ(inside.glue.size(), 1U);
  const Polygon& left =
      inside.panels[static_cast<std::size_t>(panel_named(inside, "left"))].outline;
  const fold::Glue& glue = box.model.parts[0].net.glue.at(0);
  EXPECT_NEAR(area(inside.glue[0]), area(glue.area), 1e-6);
  // The flap's foot lies at the seam, half a thickness off; the rest of it is on the left panel.
  EXPECT_GT(area(common(inside.glue[0], left)), area(glue.area) * 0.9);
}

}  // namespace
}  // namespace quoin::pieces
