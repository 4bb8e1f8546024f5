#include "trace/redraw.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <numbers>
#include <random>
#include <set>

#include "trace/fidelity.h"
#include "trace/trace_testing.h"

namespace quoin::trace {
namespace {

constexpr std::uint32_t clear = 0;

bool in_square(double x, double y) { return x > 20.3 && x < 60.8 && y > 15.6 && y < 70.2; }
bool in_disc(double x, double y) { return std::hypot(x - 50.4, y - 48.7) < 23.3; }

std::string first_id(const Result<Checked<Tracing>>& result) {
  const Diagnostics& found = result ? result->found : result.why();
  return found.empty() ? "" : std::string(facts(found.front().id).name);
}

TEST(Redraw, draws_an_upright_square_with_four_exact_lines) {
  const Tracing tracing = redrawn(picture_of(90, 90, sand, sea, in_square));
  ASSERT_EQ(tracing.faces.size(), 2U);
  std::set<double> xs, ys;
  int lines = 0;
  for (const Border& border : tracing.borders) {
    if (!border.closed) continue;
    for (const Curve& curve : border.curves) {
      EXPECT_TRUE(curve.straight);
      ++lines;
      EXPECT_TRUE(std::abs(curve.p[0].x - 20.3) < 0.06 || std::abs(curve.p[0].x - 60.8) < 0.06);
      EXPECT_TRUE(std::abs(curve.p[0].y - 15.6) < 0.06 || std::abs(curve.p[0].y - 70.2) < 0.06);
      xs.insert(std::round(curve.p[0].x * 1000));
      ys.insert(std::round(curve.p[0].y * 1000));
    }
  }
  EXPECT_EQ(lines, 4);
  EXPECT_EQ(xs.size(), 2U);  // upright to a thousandth
  EXPECT_EQ(ys.size(), 2U);
}

TEST(Redraw, knows_a_circle_and_its_size) {
  const Tracing tracing = redrawn(picture_of(100, 100, sand, sea, in_disc));
  int circles = 0;
  for (const Border& border : tracing.borders) {
    if (!border.circle) continue;
    ++circles;
    EXPECT_NEAR(border.circle->centre.x, 50.4, 0.03);
    EXPECT_NEAR(border.circle->centre.y, 48.7, 0.03);
    EXPECT_NEAR(border.circle->radius, 23.3, 0.05);
  }
  EXPECT_EQ(circles, 1);
}

TEST(Redraw, keeps_place_and_weight_of_a_dot_of_few_pixels) {
  for (const double radius : {1.3, 2.0, 2.7}) {
    const Tracing tracing = redrawn(picture_of(60, 60, sand, sea, [&](double x, double y) {
      return std::hypot(x - 30.3, y - 28.8) < radius || (x > 5 && x < 20 && y > 5 && y < 20);
    }));
    int circles = 0;
    for (const Border& border : tracing.borders) {
      if (!border.circle) continue;
      ++circles;
      EXPECT_NEAR(border.circle->centre.x, 30.3, 0.1) << radius;
      EXPECT_NEAR(border.circle->centre.y, 28.8, 0.1) << radius;
      EXPECT_NEAR(border.circle->radius, radius, 0.1) << radius;
    }
    EXPECT_EQ(circles, 1) << radius;
  }
}

TEST(Redraw, draws_each_border_once_for_both_faces) {
  const Raster picture = picture_of(80, 80, sand, sea, [](double x, double) { return x > 41.3; });
  const Tracing tracing = redrawn(picture);
  ASSERT_EQ(tracing.faces.size(), 2U);
  int shared = 0;
  double area = 0;
  for (const Border& border : tracing.borders) {
    shared += border.left >= 0 && border.right >= 0 ? 1 : 0;
  }
  for (const Face& face : tracing.faces) area += face.area;
  EXPECT_EQ(shared, 1);
  EXPECT_NEAR(area, 80 * 80, 1e-6);
}

TEST(Redraw, leaves_transparent_parts_transparent) {
  // A ring: transparent outside and in its hole.
  const Raster picture = picture_of(100, 100, clear, sea, [](double x, double y) {
    const double r = std::hypot(x - 50, y - 50);
    return r < 40 && r > 20;
  });
  const Bytes svg = write_svg(redrawn(picture), "ring");
  const auto again = drawn(svg, 100, 100);
  ASSERT_TRUE(again);
  EXPECT_EQ(again->pixels[2 * 100 + 2] >> 24, 0U);
  EXPECT_EQ(again->pixels[50 * 100 + 50] >> 24, 0U);
  EXPECT_EQ(again->pixels[50 * 100 + 20] >> 24, 255U);
  int off = 0;
  for (std::size_t i = 0; i < picture.pixels.size(); ++i) {
    off = std::max(off, std::abs(int(again->pixels[i] >> 24) - int(picture.pixels[i] >> 24)));
  }
  EXPECT_LE(off, 24);  // of 255, in a pixel of the rim
}

TEST(Redraw, keeps_what_is_half_transparent_so) {
  const Raster picture = picture_of(80, 80, clear, 0x80C65B3A, in_square);
  const Tracing tracing = redrawn(picture);
  ASSERT_EQ(tracing.layers.size(), 1U);
  const Colour colour = std::get<Colour>(tracing.layers.front().fill);
  EXPECT_NEAR(colour.alpha, 128 / 255.0, 0.01);
  EXPECT_NEAR(colour.red * 255, 0xC6, 2);
  EXPECT_NEAR(colour.blue * 255, 0x3A, 2);
  EXPECT_TRUE(tracing.layers.front().name.starts_with("see-through")) << tracing.layers[0].name;
}

/// A hole's direction once came from its smoothed points, which can turn over on a tiny ring.
TEST(Redraw, keeps_the_counter_of_a_small_letter_open) {
  const Raster picture = picture_of(40, 40, sand, sea, [](double x, double y) {
    const bool outer = x > 12 && x < 24 && y > 10 && y < 28;
    const bool counter = x > 16.4 && x < 19.6 && y > 14.5 && y < 23.4;
    return outer && !counter;
  });
  const auto again = drawn(write_svg(redrawn(picture), "D"), 40, 40);
  ASSERT_TRUE(again);
  const std::uint32_t inside = again->pixels[18 * 40 + 17];
  EXPECT_GT(inside >> 16 & 255, 0xB0U);  // sand, not sea
}

TEST(Redraw, finds_a_gradient_and_its_direction) {
  Raster picture{120, 100, {}};
  for (int y = 0; y < 100; ++y) {
    for (int x = 0; x < 120; ++x) {
      const auto value = static_cast<std::uint32_t>(40 + x * 1.5);
      picture.pixels.push_back(0xFF000000U | value << 16 | 90U << 8 | (255 - value));
    }
  }
  const Tracing tracing = redrawn(picture);
  ASSERT_EQ(tracing.layers.size(), 1U);
  const auto* fill = std::get_if<LinearFill>(&tracing.layers.front().fill);
  ASSERT_NE(fill, nullptr);
  EXPECT_NEAR(fill->from.y, fill->to.y, 0.5);
  EXPECT_GT(std::abs(fill->to.x - fill->from.x), 100);
  EXPECT_LE(fill->stops.size(), 3U);
}

TEST(Redraw, draws_a_thin_line_as_a_stroke_of_its_width) {
  const double width = 1.4;
  const Raster picture = picture_of(120, 90, sand, sea, [&](double x, double y) {
    const bool line = x > 15 && x < 105 && std::abs(y - 45.3 - (x - 60) * 0.2) < width / 2 * 1.02;
    return line || (x > 10 && x < 30 && y > 65 && y < 85);
  });
  const Tracing tracing = redrawn(picture);
  std::vector<StrokeLine> lines;
  for (const Layer& layer : tracing.layers) {
    lines.insert(lines.end(), layer.lines.begin(), layer.lines.end());
  }
  ASSERT_EQ(lines.size(), 1U);
  EXPECT_NEAR(lines.front().width, width, 0.2);
  EXPECT_LE(lines.front().curves.size(), 3U);
  EXPECT_NEAR(lines.front().curves.front().p[0].x, 15, 1.2);
  EXPECT_NEAR(lines.front().curves.back().p[3].x, 105, 1.2);
}

TEST(Redraw, uses_no_more_colours_than_are_wished_for) {
  Raster picture{90, 60, {}};
  for (int i = 0; i < 90 * 60; ++i) {
    constexpr std::uint32_t colours[] = {0xFFF4E3C1, 0xFF20505A, 0xFFC65B3A,
                                         0xFF7A9E3F, 0xFF303030, 0xFFFFFFFF};
    picture.pixels.push_back(colours[i % 90 / 15]);
  }
  TraceWishes wishes;
  EXPECT_EQ(redrawn(picture, wishes).layers.size(), 6U);
  wishes.colours = 3;
  EXPECT_EQ(redrawn(picture, wishes).layers.size(), 3U);
  wishes.colours = 0;
  wishes.palette = {Colour{1, 1, 1, 1}, Colour{0, 0, 0, 1}};
  const Tracing two = redrawn(picture, wishes);
  ASSERT_EQ(two.layers.size(), 2U);
  std::vector<std::string> painted;
  for (const Layer& layer : two.layers) painted.push_back(to_string(std::get<Colour>(layer.fill)));
  std::sort(painted.begin(), painted.end());
  EXPECT_EQ(painted, (std::vector<std::string>{"#000000", "#ffffff"}));
}

TEST(Redraw, gives_the_same_drawing_for_the_same_pixels) {
  const Raster picture = picture_of(100, 100, sand, sea, in_disc);
  EXPECT_EQ(write_svg(redrawn(picture), "a"), write_svg(redrawn(picture), "a"));
}

TEST(Redraw, refuses_what_has_nothing_to_follow) {
  EXPECT_EQ(first_id(redraw({1, 1, {0xFF808080}}, {}, "dot.png", {})), "trace.too-small");
  const Raster nothing{30, 30, std::vector<std::uint32_t>(900, 0)};
  const auto refused = redraw(nothing, {}, "empty.png", {});
  EXPECT_FALSE(refused.ok());
  EXPECT_EQ(first_id(refused), "trace.nothing-drawn");
  EXPECT_EQ(refused.why().front().message, "empty.png is transparent all over");
}

TEST(Redraw, makes_one_rectangle_of_one_colour) {
  const auto plain = redraw({40, 30, std::vector<std::uint32_t>(1200, sea)}, {}, "sea.png", {});
  ASSERT_TRUE(plain.ok());
  EXPECT_EQ(first_id(plain), "trace.one-colour");
  EXPECT_EQ(plain->found.front().message, "sea.png is dark teal all over");
  EXPECT_EQ(plain->value.faces.size(), 1U);
}

TEST(Redraw, keeps_pure_noise_within_its_bounds) {
  std::mt19937 chance(5);
  Raster noise{300, 200, {}};
  for (int i = 0; i < 300 * 200; ++i) noise.pixels.push_back(0xFF000000U | (chance() & 0xFFFFFF));
  const auto traced = redraw(noise, {}, "noise.png", {});
  ASSERT_TRUE(traced.ok());
  EXPECT_LE(static_cast<int>(traced->value.faces.size()), most_faces);
  const Bytes svg = write_svg(traced->value, "noise");
  EXPECT_EQ(judge(noise, traced->value, svg).verdict, Verdict::better_as_picture);
}

TEST(Redraw, halves_a_very_large_picture_and_says_so) {
  Raster large{4100, 2000, std::vector<std::uint32_t>(4100 * 2000, sand)};
  for (int y = 199; y <= 1800; ++y) {  // a disc of radius 800 about (2000, 1000)
    for (int x = 1199; x <= 2800; ++x) {
      const double inside =
          800.5 - std::sqrt((x - 1999.5) * (x - 1999.5) + (y - 999.5) * (y - 999.5));
      std::uint32_t& pixel = large.pixels[std::size_t(y) * 4100 + std::size_t(x)];
      if (inside >= 1) pixel = sea;
      if (inside <= 0 || inside >= 1) continue;
      pixel = 0xFF000000U;
      for (const int shift : {0, 8, 16}) {
        const double mixed = (sand >> shift & 255) * (1 - inside) + (sea >> shift & 255) * inside;
        pixel |= static_cast<std::uint32_t>(std::lround(mixed)) << shift;
      }
    }
  }
  const auto traced = redraw(large, {}, "large.png", {});
  ASSERT_TRUE(traced.ok());
  EXPECT_EQ(first_id(traced), "trace.made-smaller");
  EXPECT_EQ(traced->value.width, 4100);
  int circles = 0;
  for (const Border& border : traced->value.borders) {
    if (!border.circle) continue;
    ++circles;
    EXPECT_NEAR(border.circle->radius, 800, 0.5);
  }
  EXPECT_EQ(circles, 1);
}

/// Strokes of letters' widths: an E of 7 pixels.
bool in_small_e(double x, double y) {
  return x > 0 && y > 0 && x < 5 && y < 7 &&
         (x < 1.3 || y < 1.2 || y > 5.8 || (y > 2.9 && y < 4.1));
}

TEST(Redraw, leaves_small_lettering_out_and_says_where_it_was) {
  const Raster picture = picture_of(120, 80, sand, sea, [](double x, double y) {
    if (x > 80 && y > 50 && x < 110 && y < 70) return true;
    const double along = x - 20;
    return along > 0 && along < 42 && in_small_e(std::fmod(along, 7.0), y - 30);
  });
  const auto traced = redraw(picture, {}, "words.png", {});
  ASSERT_TRUE(traced.ok());
  ASSERT_EQ(traced->value.small_text.size(), 1U);
  const SmallText& text = traced->value.small_text.front();
  EXPECT_NEAR(text.at.x, 20, 1.5);
  EXPECT_NEAR(text.at.y, 30, 1.5);
  EXPECT_NEAR(text.width, 40, 3);
  EXPECT_NEAR(text.height, 7, 1.5);
  EXPECT_EQ(first_id(traced), "trace.small-text");
  EXPECT_EQ(traced->value.faces.size(), 2U);
}

TEST(Redraw, takes_a_row_of_windows_or_dots_for_what_it_is) {
  const Raster windows = picture_of(120, 60, sand, sea, [](double x, double y) {
    return x > 15 && x < 105 && std::fmod(x, 9.0) < 5 && y > 25 && y < 33;
  });
  EXPECT_TRUE(redrawn(windows).small_text.empty());
  const Raster dots = picture_of(120, 60, sand, sea, [](double x, double y) {
    return x > 15 && x < 105 && std::hypot(std::fmod(x, 9.0) - 4.5, y - 30) < 3;
  });
  EXPECT_TRUE(redrawn(dots).small_text.empty());
}

}  // namespace
}  // namespace quoin::trace
