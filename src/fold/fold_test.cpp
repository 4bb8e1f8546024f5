#include "fold/fold.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "fold/collision.h"
#include "fold/measure.h"
#include "fold/mesh.h"

namespace quoin::fold {
namespace {

Polygon oblong(double left, double top, double right, double bottom) {
  return {
      {Mm{left}, Mm{top}}, {Mm{right}, Mm{top}}, {Mm{right}, Mm{bottom}}, {Mm{left}, Mm{bottom}}};
}

/// Squares of 20 mm side by side, board of 0.5 mm; each hangs on the one before it and is folded in
/// a step of its own.
Model strip_of_squares(const std::vector<double>& degrees) {
  Model model;
  Net& net = model.parts.emplace_back().net;
  net.name = "strip";
  net.thickness = Mm{0.5};
  for (std::size_t k = 0; k <= degrees.size(); ++k) {
    const double left = 20.0 * static_cast<double>(k);
    net.panels.push_back({"square " + std::to_string(k), oblong(left, 0, left + 20, 20), {}, {}});
    if (k == 0) continue;
    const double step = static_cast<double>(k) - 1;
    net.hinges.push_back({static_cast<int>(k) - 1,
                          static_cast<int>(k),
                          {Mm{left}, Mm{0}},
                          {Mm{left}, Mm{20}},
                          {{step, Angle{}}, {step + 1, Angle::degrees(degrees[k - 1])}}});
    model.steps.push_back({"fold"});
  }
  model.middle = {10, 10, 10};
  return model;
}

double distance(Vec3 a, Vec3 b) { return length(a - b); }

TEST(Pose, folds_away_from_the_printed_side) {
  const Model model = strip_of_squares({90});
  const auto places = pose(model, 1);
  // The far edge of the second square lies 20 mm behind the crease.
  EXPECT_LT(distance(places[0][1](lifted({Mm{40}, Mm{5}})), {20, 5, 20}), 1e-12);
  // Its inside face looks back over the first square.
  EXPECT_LT(distance(places[0][1].normal(), {-1, 0, 0}), 1e-12);
}

TEST(Pose, does_not_ask_which_end_of_a_crease_is_named_first) {
  Model model = strip_of_squares({70});
  const Vec3 before = pose(model, 0.8)[0][1](lifted({Mm{40}, Mm{5}}));
  std::swap(model.parts[0].net.hinges[0].from, model.parts[0].net.hinges[0].to);
  EXPECT_LT(distance(pose(model, 0.8)[0][1](lifted({Mm{40}, Mm{5}})), before), 1e-12);
}

TEST(Pose, is_flat_before_and_closed_after) {
  const Model model = strip_of_squares({90, 90});
  EXPECT_EQ(pose(model, -3)[0][2].move, Vec3{});
  EXPECT_EQ(pose(model, 99)[0][2].turn, pose(model, 2)[0][2].turn);
}

TEST(Pose, keeps_places_rigid_at_every_moment) {
  const Model model = strip_of_squares({90, -37, 123, 90, 11});
  for (double progress = 0; progress <= 5; progress += 0.05) {
    const auto places = pose(model, progress);
    for (const Rigid& place : places[0]) {
      const auto& r = place.turn;
      for (int i = 0; i < 3; ++i) {
        for (int k = 0; k < 3; ++k) {
          const double product =
              r[3 * i] * r[3 * k] + r[3 * i + 1] * r[3 * k + 1] + r[3 * i + 2] * r[3 * k + 2];
          EXPECT_NEAR(product, i == k ? 1 : 0, 1e-12);
        }
      }
      const Vec3 x{r[0], r[3], r[6]}, y{r[1], r[4], r[7]}, z{r[2], r[5], r[8]};
      EXPECT_NEAR(dot(cross(x, y), z), 1, 1e-12);
    }
  }
}

TEST(Pose, is_exact_at_right_angles) {
  const Model model = strip_of_squares({90, 90, 90});
  const auto places = pose(model, 3);
  for (const Rigid& place : places[0]) {
    for (const double entry : place.turn) EXPECT_TRUE(entry == 0 || std::abs(entry) == 1) << entry;
  }
}

TEST(Collisions, are_none_round_a_square_tube) {
  Model model = strip_of_squares({90, 90, 90});
  // The last one ends on the inside face of the first.
  model.parts[0].net.panels[3].outline = oblong(60, 0, 79.75, 20);
  EXPECT_TRUE(collisions(model).empty());
}

TEST(Collisions, find_a_panel_that_is_folded_through_another) {
  // The fifth square would have to take the place of the first.
  const auto found = collisions(strip_of_squares({90, 90, 90, 90}));
  const auto through = std::find_if(found.begin(), found.end(), [](const Collision& one) {
    return one.a == PanelRef{0, 0} && one.b == PanelRef{0, 4};
  });
  ASSERT_NE(through, found.end());
  EXPECT_NEAR(through->depth.value, 0.5, 1e-6);  // all of the board
  EXPECT_NEAR(through->progress, 4, 1e-9);
}

TEST(Collisions, find_what_is_passed_through_on_the_way_though_the_end_is_free) {
  // The fourth square ends inside of the tube at 120 degrees; at 90 its edge is in the first one.
  const auto found = collisions(strip_of_squares({90, 90, 120}));
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].a, (PanelRef{0, 0}));
  EXPECT_EQ(found[0].b, (PanelRef{0, 3}));
  EXPECT_NEAR(found[0].depth.value, 0.25, 0.02);
  EXPECT_NEAR(found[0].progress, 2 + 90.0 / 120, 0.02);
  EXPECT_LT(found[0].progress, 3);
}

/// A square tube whose last square is glued over a flap of the first, which starts `inset` further
/// in.
Model glued_tube(double inset) {
  Model model = strip_of_squares({90, 90, 90});
  Net& net = model.parts[0].net;
  net.panels[0].outline = oblong(inset, 0, 20, 20);
  net.panels.push_back({"flap", oblong(inset - 15, 1, inset, 19), {}, {}});
  net.hinges.push_back(
      {0, 4, {Mm{inset}, Mm{1}}, {Mm{inset}, Mm{19}}, {{0, Angle{}}, {1, Angle::degrees(90)}}});
  return model;
}

TEST(Collisions, let_face_to_face_contact_be) {
  const Model model = glued_tube(0.5);  // one thickness: the flap's face is on the last square's
  EXPECT_TRUE(faults_of(model.parts[0].net).empty());
  EXPECT_TRUE(collisions(model).empty());
}

TEST(Collisions, find_a_flap_that_is_a_tenth_of_a_millimetre_too_far_out) {
  const auto found = collisions(glued_tube(0.4));
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].a, (PanelRef{0, 3}));
  EXPECT_EQ(found[0].b, (PanelRef{0, 4}));
  EXPECT_NEAR(found[0].depth.value, 0.1, 1e-6);
}

TEST(Collisions, find_a_fold_that_goes_flat_onto_its_neighbour) {
  const auto found = collisions(strip_of_squares({180}));
  ASSERT_EQ(found.size(), 1U);
  EXPECT_NEAR(found[0].depth.value, 0.5, 1e-6);
}

TEST(Collisions, are_found_between_parts_that_slide) {
  Model model = strip_of_squares({90});
  model.parts.push_back(model.parts[0]);
  model.steps.push_back({"put it in place"});
  Part& second = model.parts[1];
  second.net.hinges.clear();
  second.net.panels.resize(1);
  second.home.move = {5, 0, 10};  // stands across the fold behind x = 20
  second.away = {0, 60, 0};
  second.arrives_from = 1;
  second.arrives_by = 2;
  const auto found = collisions(model);
  ASSERT_EQ(found.size(), 1U);
  EXPECT_EQ(found[0].b, (PanelRef{1, 0}));
  second.home.move = {-0.3, 0, 10};  // 0.05 mm clear of the fold's inside face
  EXPECT_TRUE(collisions(model).empty());
}

TEST(ClearInside, is_what_lies_between_the_faces) {
  Model model = strip_of_squares({90, 90, 90});
  const Clear clear = clear_inside(model, {Mm{10}, Mm{10}, Mm{10}});
  EXPECT_NEAR(clear.size.width.value, 19.5, 1e-9);
  EXPECT_NEAR(clear.size.depth.value, 19.5, 1e-9);
  EXPECT_NEAR(clear.size.height.value, 2000, 1e-9);  // open at both ends
  EXPECT_NEAR(clear.at.z, 0.25, 1e-9);
}

TEST(ClearInside, gives_way_to_flaps_on_the_axis_with_room) {
  Model model = strip_of_squares({90, 90, 90});
  Net& net = model.parts[0].net;
  // A flap at the top of the first square, folded in by 90 degrees, 8 mm long.
  net.panels.push_back({"flap", oblong(1, -8, 19, 0), {}, {}});
  net.hinges.push_back(
      {0, 4, {Mm{1}, Mm{0}}, {Mm{19}, Mm{0}}, {{0, Angle{}}, {1, Angle::degrees(90)}}});
  // A low deck lies below the flap, a shallow one behind it.
  EXPECT_NEAR(clear_inside(model, {Mm{10}, Mm{10}, Mm{15}}).at.y, 0.25, 1e-9);
  EXPECT_NEAR(clear_inside(model, {Mm{10}, Mm{1500}, Mm{9}}).at.z, 8, 1e-9);
}

TEST(ClearInside, is_nothing_where_a_plate_lies) {
  Model model = strip_of_squares({90});
  model.middle = {10, 10, 0.1};
  EXPECT_EQ(clear_inside(model, {}).size, Block{});
}

TEST(Gaps, are_positive_for_air_and_negative_for_overlap) {
  Model model = strip_of_squares({90, 90, 90});
  model.meetings = {{{0, 0}, {0, 3}}};
  // The fourth square ends on the first one's mid-plane: half its thickness is in the first.
  EXPECT_NEAR(gaps(model)[0].width.value, -0.25, 1e-9);
  model.parts[0].net.panels[3].outline = oblong(60, 0, 79, 20);
  EXPECT_NEAR(gaps(model)[0].width.value, 0.75, 1e-9);
}

TEST(Contacts, measure_the_area_that_is_covered) {
  Model model = strip_of_squares({90, 90, 90, 90});
  Net& net = model.parts[0].net;
  net.panels[3].outline = oblong(60, 0, 79.5, 20);
  net.panels[4].outline = oblong(79.5, 5, 105, 15);
  net.hinges[3].from = {Mm{79.5}, Mm{5}};
  net.hinges[3].to = {Mm{79.5}, Mm{15}};
  net.glue = {{4, 0, net.panels[4].outline}};
  const Contact contact = contacts(model)[0];
  EXPECT_NEAR(contact.of, 255, 1e-9);
  EXPECT_NEAR(contact.area, 200, 1e-3);  // 5.5 mm reach past the first square
  EXPECT_NEAR(contact.apart.value, 0, 1e-9);
}

TEST(Faults, name_what_a_net_breaks) {
  Model model = strip_of_squares({90});
  Net& net = model.parts[0].net;
  EXPECT_TRUE(faults_of(net).empty());
  net.panels[1].outline = oblong(19, 0, 40, 20);
  net.hinges[0].from.x = Mm{25};
  EXPECT_EQ(faults_of(net),
            (std::vector<std::string>{
                "square 0 and square 1 share 20.000 mm² of board",
                "the crease between square 0 and square 1 is not on an edge of square 0",
                "the crease between square 0 and square 1 is not on an edge of square 1"}));
}

TEST(Mesh, is_closed_and_looks_outwards) {
  Panel panel{"notched", {}, {}, {}};
  panel.outline = {{Mm{0}, Mm{0}},  {Mm{8}, Mm{0}},   {Mm{10}, Mm{4}}, {Mm{12}, Mm{0}},
                   {Mm{20}, Mm{0}}, {Mm{20}, Mm{30}}, {Mm{0}, Mm{30}}};
  const Mesh made = mesh(panel, Mm{0.5});
  double volume = 0;
  for (const auto* faces : {&made.printed, &made.inside, &made.edge}) {
    for (std::size_t i = 0; i < faces->size(); i += 3) {
      const Corner &a = made.corners[(*faces)[i]], &b = made.corners[(*faces)[i + 1]],
                   &c = made.corners[(*faces)[i + 2]];
      const Vec3 across = cross(b.at - a.at, c.at - a.at);
      EXPECT_GT(dot(across, a.normal), 0);
      EXPECT_NEAR(length(a.normal), 1, 1e-12);
      volume += dot(a.at, cross(b.at, c.at)) / 6;
    }
  }
  // By the divergence theorem a closed mesh encloses the panel's volume.
  EXPECT_NEAR(volume, area(panel.outline) * 0.5, 1e-9);
}

TEST(CutOutline, joins_panels_and_bleeds_but_not_under_glue) {
  Model model = strip_of_squares({90, 90});
  Net& net = model.parts[0].net;
  EXPECT_NEAR(area(cut_outline(net)), 1200, 1e-6);
  net.glue = {{2, 0, net.panels[2].outline}};
  EXPECT_NEAR(area(inked_outline(net, Mm{3})), 66 * 26 - 400, 1e-3);
}

TEST(FindPanel, knows_panels_by_name_in_any_part) {
  const Model model = strip_of_squares({90, 90});
  EXPECT_EQ(find_panel(model, "square 2"), (PanelRef{0, 2}));
  EXPECT_EQ(find_panel(model, "lid"), std::nullopt);
  EXPECT_EQ(panel_names(model), (std::vector<std::string>{"square 0", "square 1", "square 2"}));
}

}  // namespace
}  // namespace quoin::fold
