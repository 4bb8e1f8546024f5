#include "fold/view.h"

#include <gtest/gtest.h>

#include <cmath>

#include "fold/convex.h"
#include "fold/surface.h"

namespace quoin::fold {
namespace {

/// An upright square that faces the viewer, `away` from them.
Facet square_at(int face, double left, double top, double size, double away) {
  return {face,
          {{left, top, away},
           {left + size, top, away},
           {left + size, top + size, away},
           {left, top + size, away}},
          {0, 0, -1}};
}

std::vector<int> faces_of(const std::vector<Shown>& shown) {
  std::vector<int> faces;
  for (const Shown& one : shown) faces.push_back(one.face);
  return faces;
}

TEST(View, has_directions_square_to_each_other) {
  const View view = view_from(Angle::degrees(33), Angle::degrees(21));
  for (const Vec3 way : {view.right, view.down, view.away}) EXPECT_NEAR(length(way), 1, 1e-12);
  EXPECT_NEAR(dot(view.right, view.down), 0, 1e-12);
  EXPECT_NEAR(dot(cross(view.right, view.down), view.away), 1, 1e-12);
}

TEST(View, shows_the_right_side_and_the_top_of_what_it_looks_at) {
  const View view = view_from(Angle::degrees(30), Angle::degrees(20));
  for (const Vec3 outwards : {Vec3{0, 0, -1}, Vec3{1, 0, 0}, Vec3{0, -1, 0}}) {
    EXPECT_LT(dot(outwards, view.away), 0);
  }
  // An upright line stays upright and is cos 20 degrees as long.
  EXPECT_NEAR(seen(view, {0, 10, 0}).x.value, 0, 1e-12);
  EXPECT_NEAR(seen(view, {0, 10, 0}).y.value, 10 * std::cos(Angle::degrees(20).radians), 1e-12);
}

TEST(BackToFront, puts_what_is_farther_first_and_leaves_out_what_is_hidden) {
  const std::vector<Facet> facets{square_at(0, 0, 0, 10, 1), square_at(1, 5, 5, 10, 9),
                                  square_at(2, 1, 1, 3, 20)};
  EXPECT_EQ(faces_of(back_to_front(facets, {})), (std::vector<int>{1, 0}));
}

TEST(BackToFront, leaves_out_what_several_hide_together) {
  const std::vector<Facet> facets{square_at(0, 0, 0, 10, 1), square_at(1, 10, 0, 10, 2),
                                  square_at(2, 7, 3, 5, 9)};
  EXPECT_EQ(faces_of(back_to_front(facets, {})).size(), 2U);
}

TEST(BackToFront, does_not_show_what_is_turned_away) {
  Facet turned = square_at(0, 0, 0, 10, 1);
  turned.normal = {0, 0, 1};
  EXPECT_TRUE(back_to_front({turned}, {}).empty());
}

TEST(BackToFront, cuts_a_facet_that_goes_through_another) {
  // Leans through the square: its left half is in front of it, its right half behind.
  const double k = std::sqrt(0.5);
  const Facet leaning{1, {{0, 2, -5}, {10, 2, 5}, {10, 8, 5}, {0, 8, -5}}, {k, 0, -k}};
  const auto shown = back_to_front({square_at(0, 0, 0, 10, 0), leaning}, {});
  ASSERT_EQ(shown.size(), 2U);
  EXPECT_EQ(shown[1].face, 1);
  ASSERT_EQ(shown[1].pieces.size(), 1U);
  EXPECT_NEAR(area(shown[1].pieces[0]), 5 * 6, 1e-3);
}

TEST(BackToFront, draws_the_pieces_of_a_face_together_when_nothing_lies_between_them) {
  std::vector<Facet> facets{square_at(0, 0, 0, 10, 1), square_at(1, 20, 0, 10, 1),
                            square_at(0, 10, 0, 10, 1)};
  const auto shown = back_to_front(facets, {});
  ASSERT_EQ(shown.size(), 2U);
  EXPECT_EQ(shown[0].pieces.size() + shown[1].pieces.size(), 3U);
}

TEST(Convex, grows_by_a_distance_on_every_side) {
  const Convex square{{Mm{0}, Mm{0}}, {Mm{10}, Mm{0}}, {Mm{10}, Mm{10}}, {Mm{0}, Mm{10}}};
  EXPECT_NEAR(area(grown(square, Mm{0.5})), 121, 1e-9);
  const Convex needle{{Mm{0}, Mm{0}}, {Mm{10}, Mm{0}}, {Mm{0}, Mm{0.1}}};
  EXPECT_LT(bounds(grown(needle, Mm{0.5})).right().value, 10.8);  // no spike
}

TEST(Convex, hull_is_the_rubber_band) {
  EXPECT_NEAR(area(convex_hull({{Mm{0}, Mm{0}},
                                {Mm{4}, Mm{0}},
                                {Mm{2}, Mm{1}},
                                {Mm{4}, Mm{4}},
                                {Mm{0}, Mm{4}},
                                {Mm{0}, Mm{2}}})),
              16, 1e-12);
  EXPECT_TRUE(convex_hull({{Mm{0}, Mm{0}}, {Mm{1}, Mm{1}}, {Mm{2}, Mm{2}}}).empty());
}

/// Two squares of 20 mm, board of 0.5 mm, folded by so much.
Net two_squares(double degrees) {
  Net net;
  net.thickness = Mm{0.5};
  for (const double left : {0.0, 20.0}) {
    const Mm from{left}, to{left + 20};
    net.panels.push_back({"", {{from, Mm{0}}, {to, Mm{0}}, {to, Mm{20}}, {from, Mm{20}}}, {}, {}});
  }
  net.hinges = {{0, 1, {Mm{20}, Mm{0}}, {Mm{20}, Mm{20}}, {{0, Angle::degrees(degrees)}}}};
  return net;
}

TEST(Surfaces, close_the_outside_of_a_fold_without_a_gap) {
  for (const double degrees : {90.0, -30.0, 37.0}) {
    const Net net = two_squares(degrees);
    const auto places = pose(net, 1);
    std::vector<Surface> bends;
    for (Surface& each : surfaces(net, places, Creases::rounded)) {
      const bool is_face = each.parts[0].size() == 4 && each.side != Side::edge;
      const double wide = length(each.parts[0][0] - each.parts[0][3]);
      if (is_face && wide < 1) bends.push_back(std::move(each));
    }
    ASSERT_FALSE(bends.empty()) << degrees;
    const Side side = degrees > 0 ? Side::printed : Side::inside;
    const double z = degrees > 0 ? -0.25 : 0.25;
    EXPECT_LT(length(bends.front().parts[0][0] - places[0](lifted({Mm{20}, Mm{0}}, z))), 1e-9);
    EXPECT_LT(length(bends.back().parts[0][3] - places[1](lifted({Mm{20}, Mm{0}}, z))), 1e-9);
    for (std::size_t i = 1; i < bends.size(); ++i) {
      EXPECT_EQ(bends[i].side, side);
      EXPECT_LT(length(bends[i - 1].parts[0][2] - bends[i].parts[0][1]), 1e-9);
    }
  }
}

TEST(Surfaces, carry_the_art_of_a_panel_on_round_the_bend) {
  const Net net = two_squares(90);
  for (const Surface& each : surfaces(net, pose(net, 1), Creases::rounded)) {
    if (each.side != Side::printed || length(each.parts[0][0] - each.parts[0][3]) > 1) continue;
    // The map puts places beside the crease, on the panel's own side, onto the strip's corners.
    const double out = each.panel == 0 ? -1 : 1;
    for (const Vec3 corner : each.parts[0]) {
      double nearest = 1;
      for (double beside = 0; beside < 0.07; beside += 0.0001) {
        for (const double y : {0.0, 20.0}) {
          nearest = std::min(nearest, length(each.map({Mm{20 + out * beside}, Mm{y}}) - corner));
        }
      }
      EXPECT_LT(nearest, 2e-3);
    }
  }
}

TEST(Surfaces, of_a_flat_net_have_no_edges_along_its_creases) {
  const Net net = two_squares(0);
  int edges = 0;
  for (const Surface& each : surfaces(net, pose(net, 1), Creases::rounded)) {
    edges += each.side == Side::edge ? 1 : 0;
  }
  EXPECT_EQ(edges, 6);
}

}  // namespace
}  // namespace quoin::fold
