#include "trace/drawing/exchange.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

#include "trace/fidelity.h"
#include "trace/trace_testing.h"

namespace quoin::trace {
namespace {

constexpr std::uint32_t coral = 0xFFC65B3A;

Colour colour_named(const char* hex) { return *parse_colour(hex); }

std::set<std::string> fills(const Tracing& tracing) {
  std::set<std::string> all;
  for (const DrawingColour& one : drawing_colours(tracing)) all.insert(to_string(one.colour));
  return all;
}

/// Left of x = 50.3 sand, right of it sea; on both a disc of coral.
Raster two_halves_and_a_disc() {
  const Raster halves = picture_of(100, 80, sand, sea, [](double x, double) { return x > 50.3; });
  const auto disc = [](double x, double y) { return std::hypot(x - 52.6, y - 41.2) < 23.3; };
  const Raster on_sand = picture_of(100, 80, sand, coral, disc);
  const Raster on_sea = picture_of(100, 80, sea, coral, disc);
  Raster both = halves;
  for (int y = 0; y < 80; ++y) {
    for (int x = 0; x < 100; ++x) {
      const std::size_t i = std::size_t(y) * 100 + std::size_t(x);
      const Raster& side = x < 50 ? on_sand : on_sea;
      if (x == 50 && on_sand.pixels[i] == sand) continue;  // the mixture of both grounds
      both.pixels[i] = side.pixels[i];
    }
  }
  return both;
}

TEST(Instead, paints_areas_of_one_colour_with_another) {
  const Raster picture = two_halves_and_a_disc();
  TraceWishes wishes;
  wishes.instead = {{colour_named("#c65b3a"), colour_named("#123456")}};
  const Tracing plain = redrawn(picture), changed = redrawn(picture, wishes);
  EXPECT_EQ(fills(plain), (std::set<std::string>{"#c65b3a", "#20505a", "#f4e3c1"}));
  EXPECT_EQ(fills(changed), (std::set<std::string>{"#123456", "#20505a", "#f4e3c1"}));
  ASSERT_EQ(changed.borders.size(), plain.borders.size());
  for (std::size_t i = 0; i < plain.borders.size(); ++i) {
    ASSERT_EQ(changed.borders[i].curves.size(), plain.borders[i].curves.size());
    for (std::size_t k = 0; k < plain.borders[i].curves.size(); ++k) {
      EXPECT_EQ(changed.borders[i].curves[k].p[0], plain.borders[i].curves[k].p[0]);
    }
  }
}

TEST(Instead, makes_areas_one_that_become_alike_and_keeps_the_borders_of_others_exact) {
  TraceWishes wishes;
  wishes.instead = {{colour_named("#20505a"), colour_named("#f4e3c1")}};
  const Raster picture = two_halves_and_a_disc();
  EXPECT_EQ(redrawn(picture).faces.size(), 3U);
  const Tracing tracing = redrawn(picture, wishes);
  EXPECT_EQ(fills(tracing), (std::set<std::string>{"#c65b3a", "#f4e3c1"}));
  ASSERT_EQ(tracing.faces.size(), 2U);
  int points = 0;
  for (const Border& border : tracing.borders) {
    if (border.left < 0 || border.right < 0) continue;
    for (const Curve& curve : border.curves) {
      ++points;
      // Where one pixel had all three colours nobody can tell so exactly.
      const double exact = std::abs(curve.p[0].x - 50.5) < 2 ? 0.25 : 0.12;
      EXPECT_NEAR(std::hypot(curve.p[0].x - 52.6, curve.p[0].y - 41.2), 23.3, exact);
    }
  }
  EXPECT_GE(points, 4);
  EXPECT_LT(node_count(tracing), node_count(redrawn(picture))) << "the border between is gone";
}

TEST(Instead, lets_two_colours_change_places) {
  TraceWishes wishes;
  wishes.instead = {{colour_named("#20505a"), colour_named("#c65b3a")},
                    {colour_named("#c65b3a"), colour_named("#20505a")}};
  const Raster picture = two_halves_and_a_disc();
  const auto before = drawing_colours(redrawn(picture));
  const auto after = drawing_colours(redrawn(picture, wishes));
  ASSERT_EQ(before.size(), 3U);
  ASSERT_EQ(after.size(), 3U);
  for (const DrawingColour& one : before) {
    const std::string own = to_string(one.colour);
    const std::string now = own == "#20505a" ? "#c65b3a" : own == "#c65b3a" ? "#20505a" : own;
    const auto there = std::find_if(after.begin(), after.end(), [&](const DrawingColour& other) {
      return to_string(other.colour) == now;
    });
    ASSERT_NE(there, after.end()) << now;
    EXPECT_NEAR(there->share, one.share, 1e-12);
  }
}

TEST(Instead, says_which_colour_the_drawing_does_not_have) {
  TraceWishes wishes;
  wishes.instead = {{colour_named("#00ff00"), colour_named("#123456")}};
  const auto result = redraw(two_halves_and_a_disc(), wishes, "it.png", {});
  ASSERT_TRUE(result);
  ASSERT_EQ(result->found.size(), 1U);
  EXPECT_EQ(result->found[0].id, Id::trace_no_such_colour);
  EXPECT_EQ(result->found[0].message,
            "the drawing of it.png has no #00ff00, and keeps what is there");
  EXPECT_EQ(result->found[0].details,
            std::vector<std::string>{"its plain colours are #20505a, #c65b3a, #f4e3c1"});
  EXPECT_EQ(fills(result->value), fills(redrawn(two_halves_and_a_disc())));
}

TEST(Instead, takes_thin_lines_along) {
  const auto line = [](double x, double y) { return std::abs(y - 40.2) < 0.7 && x > 8 && x < 92; };
  const Raster picture = picture_of(100, 80, sand, sea, line);
  const auto before = drawing_colours(redrawn(picture));
  ASSERT_EQ(before.size(), 2U);
  TraceWishes wishes;
  wishes.instead = {{before[1].colour, colour_named("#c65b3a")}};
  const Tracing tracing = redrawn(picture, wishes);
  ASSERT_EQ(tracing.layers.back().lines.size(), 1U);
  EXPECT_EQ(to_string(std::get<Colour>(tracing.layers.back().fill)), "#c65b3a");
  EXPECT_EQ(tracing.layers.back().name, "red lines");
}

TEST(DrawingColours, have_names_and_shares_of_the_area) {
  const auto disc = [](double x, double y) { return std::hypot(x - 50, y - 40) < 20; };
  const auto colours = drawing_colours(redrawn(picture_of(100, 80, sand, sea, disc)));
  ASSERT_EQ(colours.size(), 2U);
  const double share = 3.14159265358979 * 400 / 8000;  // of the disc: pi r^2
  EXPECT_NEAR(colours[1].share, share, 0.003);
  EXPECT_NEAR(colours[0].share, 1 - share, 0.003);
  EXPECT_FALSE(colours[0].name.empty());
  EXPECT_NE(colours[0].name, colours[1].name);
}

}  // namespace
}  // namespace quoin::trace
