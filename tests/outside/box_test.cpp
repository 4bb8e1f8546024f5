#include "pieces/box/box.h"

#include <gtest/gtest.h>

#include <algorithm>
#define BOOST_ALLOW_DEPRECATED_HEADERS
#include <boost/geometry.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <boost/geometry/geometries/polygon.hpp>
#include <cmath>

#include "pieces/box/check_box.h"
#include "pieces/box/tuck.h"

namespace quoin::pieces {
namespace {

namespace bg = boost::geometry;
using Shape = bg::model::polygon<bg::model::d2::point_xy<double>>;

constexpr double within = 0.05;  // mm

/// 54 cards of 63.5 x 88.9 x 0.30 mm with 1.0, 1.5 and 1.0 mm of clearance in board of 0.40 mm.
BoxPlan worked_example() {
  game::BoxWishes wishes;
  wishes.ends = game::Ends::straight;
  return plan_of(wishes, {Mm{64.5}, Mm{90.4}, Mm{17.2}}, Mm{0.40});
}

Rect bounds_of(const fold::Model& model, const char* name) {
  return bounds(fold::panel(model, *fold::find_panel(model, name)).outline);
}

/// y of the crease on which a panel hangs.
double crease_height(const fold::Model& model, const char* name) {
  const int child = fold::find_panel(model, name)->panel;
  const auto& hinges = model.parts[0].net.hinges;
  return std::find_if(hinges.begin(), hinges.end(),
                      [&](const fold::Hinge& h) { return h.child == child; })
      ->from.y.value;
}

// The reckoning of carton allowances for mid-plane creases (derived: a crease on the mid-plane of
// both panels puts each wall's face half a thickness in), worked out by hand apart from this
// program: inside 64.5 x 17.2 x 90.4 and t = 0.40 give panels of 64.9 and 17.6, a girth of 165.0,
// and 177.0 with a glue flap of 12; a lid of 17.2 (16.9 with 0.3 of play); dust flaps of at
// most 32.25 by 16.8; dust creases 90.8 and lid creases 91.6 apart. The front is drawn 0.40
// narrower, which that reckoning names apart ("the flap adds one thickness inside its corner").
TEST(WorkedCarton, of_54_cards_has_the_reckoned_panels) {
  const fold::Model model = draw_tuck(worked_example());
  const double front = bounds_of(model, "front").size.width.value;
  const double back = bounds_of(model, "back").size.width.value;
  const double right = bounds_of(model, "right").size.width.value;
  const double left = bounds_of(model, "left").size.width.value;
  const double flap = bounds_of(model, "glue flap").size.width.value;
  constexpr double seam = 0.40;
  EXPECT_NEAR(back, 64.9, within);
  EXPECT_NEAR(front + seam, 64.9, within);
  EXPECT_NEAR(right, 17.6, within);
  EXPECT_NEAR(left, 17.6, within);
  EXPECT_NEAR(front + seam + right + back + left, 165.0, within);
  EXPECT_NEAR(front + seam + right + back + left + flap, 177.0, within);
}

TEST(WorkedCarton, of_54_cards_has_the_reckoned_flaps_and_stepped_creases) {
  const fold::Model model = draw_tuck(worked_example());
  EXPECT_NEAR(bounds_of(model, "top lid").size.height.value, 16.9, within);
  EXPECT_LE(bounds_of(model, "top right dust flap").size.height.value, 32.25);
  EXPECT_LE(bounds_of(model, "top right dust flap").size.width.value, 16.8);
  EXPECT_NEAR(
      crease_height(model, "bottom left dust flap") - crease_height(model, "top left dust flap"),
      90.8, within);
  EXPECT_NEAR(crease_height(model, "bottom lid") - crease_height(model, "top lid"), 91.6, within);
}

// The pile of that example, 54 x 0.30 = 16.2 mm, goes into what is measured inside the folded
// carton.
TEST(WorkedCarton, of_54_cards_holds_its_pile_when_folded) {
  const fold::Block deck{Mm{63.5}, Mm{88.9}, Mm{16.2}};
  const Fit fit = measured(draw_tuck(worked_example()), deck);
  EXPECT_TRUE(fit.collisions.empty());
  EXPECT_GE(fit.clear.size.width, deck.width);
  EXPECT_GE(fit.clear.size.height, deck.height);
  EXPECT_GE(fit.clear.size.depth, deck.depth);
  EXPECT_NEAR(fit.clear.size.height.value, 90.4, within);
}

// Two tool-makers' public sheets: channel width 1.5 c + d, with a rule of d = 0.71 mm.
TEST(CreaseWidth, agrees_with_the_tool_makers_sheets) {
  EXPECT_NEAR(crease_width(Mm{0.25}).value, 1.085, 1e-9);
  EXPECT_NEAR(crease_width(Mm{0.35}).value, 1.235, 1e-9);
  EXPECT_NEAR(crease_width(Mm{0.40}).value, 1.310, 1e-9);
  EXPECT_NEAR(crease_width(Mm{0.50}).value, 1.460, 1e-9);
}

std::vector<fold::Model> all_kinds() {
  std::vector<fold::Model> models;
  for (const BoxKind& kind : box_kinds()) {
    game::BoxWishes wishes;
    wishes.kind = kind.word;
    Contents contents{54, {Mm{63.5}, Mm{88.9}}, {}};
    contents.stock.caliper = Mm{0.3};
    models.push_back(make_box(wishes, contents).value->model);
  }
  return models;
}

Shape to_boost(const Polygon& polygon) {
  Shape shape;
  for (const Point p : polygon) bg::append(shape.outer(), Shape::point_type{p.x.value, p.y.value});
  bg::correct(shape);
  return shape;
}

// Boost.Geometry 1.74: is_valid by the OGC Simple Features rules, and areas shared by two panels.
TEST(BoxNets, are_valid_and_their_panels_disjoint_by_an_independent_library) {
  for (const fold::Model& model : all_kinds()) {
    for (const fold::Part& part : model.parts) {
      const auto& panels = part.net.panels;
      for (std::size_t i = 0; i < panels.size(); ++i) {
        std::string why;
        EXPECT_TRUE(bg::is_valid(to_boost(panels[i].outline), why))
            << panels[i].name << ": " << why;
        for (std::size_t k = 0; k < i; ++k) {
          std::vector<Shape> both;
          bg::intersection(to_boost(panels[i].outline), to_boost(panels[k].outline), both);
          double shared = 0;
          for (const Shape& shape : both) shared += bg::area(shape);
          EXPECT_LT(shared, 1e-6) << panels[i].name << " and " << panels[k].name;
        }
      }
    }
  }
}

// Folding moves panels and bends none: Euclid's congruence, all distances of a panel's corners
// kept.
TEST(BoxFolding, keeps_every_distance_on_every_panel) {
  for (const fold::Model& model : all_kinds()) {
    for (double progress = 0; progress <= static_cast<double>(model.steps.size());
         progress += 0.125) {
      const auto places = fold::pose(model, progress);
      for (std::size_t part = 0; part < model.parts.size(); ++part) {
        const auto& panels = model.parts[part].net.panels;
        for (std::size_t i = 0; i < panels.size(); ++i) {
          const Polygon& outline = panels[i].outline;
          for (std::size_t k = 1; k < outline.size(); ++k) {
            const double flat = length(outline[k] - outline[0]).value;
            const double folded = fold::length(places[part][i](fold::lifted(outline[k])) -
                                               places[part][i](fold::lifted(outline[0])));
            EXPECT_NEAR(folded, flat, 1e-9) << panels[i].name;
          }
        }
      }
    }
  }
}

// A crease is one line in space for both of its panels, at every moment.
TEST(BoxFolding, never_parts_panels_at_their_crease) {
  for (const fold::Model& model : all_kinds()) {
    for (double progress = 0; progress <= static_cast<double>(model.steps.size());
         progress += 0.125) {
      const auto places = fold::pose(model, progress);
      for (std::size_t part = 0; part < model.parts.size(); ++part) {
        for (const fold::Hinge& hinge : model.parts[part].net.hinges) {
          for (const Point p : {hinge.from, hinge.to}) {
            EXPECT_LT(fold::length(places[part][hinge.parent](fold::lifted(p)) -
                                   places[part][hinge.child](fold::lifted(p))),
                      1e-9);
          }
        }
      }
    }
  }
}

}  // namespace
}  // namespace quoin::pieces
