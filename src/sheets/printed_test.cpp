#include "sheets/printed.h"

#include <gtest/gtest.h>

namespace quoin::sheets {
namespace {

using game::FlipEdge;

press::Profile study(Size paper, FlipEdge flip) {
  press::Profile printer;
  printer.id = "study-laser";
  printer.paper = paper;
  printer.flip = flip;
  printer.scale_x = 1.003;
  printer.scale_y = 0.998;
  printer.back = {{Mm{1.3}, Mm{-0.9}}, Angle::degrees(0.4), 1.002, 0.997, Angle::degrees(-0.1)};
  return printer;
}

Plan plan_of(const game::SheetWishes& wishes) {
  std::vector<Copy> cards;
  for (int i = 0; i < 11; ++i) cards.push_back({i, 0, "", "main"});
  return *lay(cards, {{Mm{63.5}, Mm{88.9}}, Mm{3}, Mm{3}, false, "card", {}}, wishes);
}

/// Where a printer that does what the profile says puts a place of a page: on the paper, seen from
/// the front.
struct SimulatedPrinter {
  Affine front, back;
};

SimulatedPrinter printer_of(const press::Profile& p, const Plan& plan) {
  const Size paper = plan.grid.paper;
  const Point centre{paper.width / 2, paper.height / 2};
  press::Parts size;
  size.scale_x = p.scale_x;
  size.scale_y = p.scale_y;
  const Affine front = press::map_of(size, centre);
  const Affine through = behind(paper, plan.wishes.flip);
  return {front, then(through, then(press::map_of(p.back, centre), front))};
}

TEST(Corrected, puts_every_back_on_its_front_and_cards_at_true_size) {
  for (const FlipEdge flip : {FlipEdge::long_edge, FlipEdge::short_edge}) {
    for (const auto held : {game::Orientation::portrait, game::Orientation::landscape}) {
      game::SheetWishes wishes;
      wishes.flip = flip;
      wishes.orientation = held;
      const Plan plan = plan_of(wishes);
      const press::Profile profile = study(plan.grid.paper, flip);
      const auto maps = corrected(profile, plan.grid.paper, plan.wishes);
      ASSERT_TRUE(maps.value);
      const SimulatedPrinter printer = printer_of(profile, plan);
      int compared = 0;
      for (const Sheet& sheet : plan.sheets) {
        for (std::size_t i = 0; i < sheet.front.placed.size(); ++i) {
          const Affine front =
              then(then(sheet.front.placed[i].map, maps.value->front), printer.front);
          // The back of the same cell: its trim lies behind the front's.
          const Rect behind_it = bounds(behind(plan.grid.paper, flip), sheet.front.placed[i].trim);
          for (const Placed& back : sheet.back.placed) {
            if (length(back.trim.centre() - behind_it.centre()) > Mm{1}) continue;
            const Affine printed = then(then(back.map, maps.value->back), printer.back);
            const Point a = front(Point{Mm{31.75}, Mm{44.45}});
            const Point b = printed(Point{Mm{31.75}, Mm{44.45}});
            EXPECT_LT(length(a - b), Mm{0.01});
            ++compared;
          }
          const Point left = front(Point{}), right = front(Point{Mm{63.5}, Mm{}});
          EXPECT_NEAR(length(right - left).value, 63.5, 0.01);
        }
      }
      EXPECT_GE(compared, 11);
    }
  }
}

TEST(Corrected, misses_by_what_was_measured_when_it_is_left_out) {
  const Plan plan = plan_of({});
  const press::Profile profile = study(plan.grid.paper, FlipEdge::long_edge);
  const SimulatedPrinter printer = printer_of(profile, plan);
  const Placed& front = plan.sheets[0].front.placed[0];
  const Point corner = front.trim.at;
  const Point back = behind(plan.grid.paper, FlipEdge::long_edge)(corner);
  EXPECT_GT(length(printer.front(corner) - printer.back(back)), Mm{1});
}

TEST(Corrected, is_nothing_for_a_printer_that_was_measured_otherwise) {
  const Plan plan = plan_of({});
  const auto maps =
      corrected(study(plan.grid.paper, FlipEdge::short_edge), plan.grid.paper, plan.wishes);
  EXPECT_FALSE(maps.value);
  ASSERT_EQ(maps.found.size(), 1u);
  EXPECT_EQ(maps.found[0].id, Id::press_measured_otherwise);
}

TEST(Corrected, agrees_with_the_press_about_what_lies_behind) {
  for (const Size paper : {Size{Mm{210}, Mm{297}}, Size{Mm{297}, Mm{210}}}) {
    for (const FlipEdge flip : {FlipEdge::long_edge, FlipEdge::short_edge}) {
      const press::Profile none = study(paper, flip);
      game::SheetWishes wishes;
      wishes.flip = flip;
      press::Profile still = none;
      still.back = {};
      still.scale_x = still.scale_y = 1;
      EXPECT_EQ(corrected(still, paper, wishes).value->back, Affine{});
    }
  }
}

}  // namespace
}  // namespace quoin::sheets
