#include "trace/svg.h"

#include <gtest/gtest.h>

#include <regex>
#include <set>

#include "trace/drawing/colour_words.h"
#include "trace/fidelity.h"
#include "trace/trace_testing.h"

namespace quoin::trace {
namespace {

TEST(TraceSvg, writes_a_named_group_for_each_colour) {
  const Bytes svg = write_svg(
      redrawn(picture_of(60, 50, sand, sea,
                         [](double x, double y) { return std::hypot(x - 30, y - 25) < 15; })),
      "a <disc> & more");
  EXPECT_EQ(svg,
            "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"60\" height=\"50\" "
            "viewBox=\"0 0 60 50\">\n"
            "<title>a &lt;disc> &amp; more</title>\n"
            "<g id=\"yellow\" fill=\"#f4e3c1\">\n<title>yellow, #f4e3c1</title>\n"
            "<path d=\"M0 0h60v50h-60v-50z\"/>\n</g>\n"
            "<g id=\"dark-teal\" fill=\"#20505a\">\n<title>dark teal, #20505a</title>\n"
            "<circle cx=\"30\" cy=\"25\" r=\"15\"/>\n</g>\n</svg>\n");
}

TEST(TraceSvg, has_one_group_for_each_colour_however_they_lie_in_each_other) {
  // Rings of two colours, each in the other.
  const Tracing tracing = redrawn(picture_of(120, 120, sand, sea, [](double x, double y) {
    return static_cast<int>(std::hypot(x - 60, y - 60) / 11) % 2 == 1;
  }));
  EXPECT_EQ(tracing.layers.size(), 2U);
  const Bytes svg = write_svg(tracing, "rings");
  const std::regex group("<g id=\"([^\"]*)\"");
  std::set<std::string> ids;
  for (std::sregex_iterator i(svg.begin(), svg.end(), group), end; i != end; ++i) {
    EXPECT_TRUE(ids.insert((*i)[1]).second);
  }
  EXPECT_EQ(ids.size(), 2U);
}

TEST(TraceSvg, lets_no_page_show_through_between_faces) {
  // Three colours that meet, and rings: both ways of keeping gaps shut.
  Raster picture = picture_of(120, 120, sand, sea, [](double x, double y) {
    return static_cast<int>(std::hypot(x - 60, y - 60) / 11) % 2 == 1;
  });
  const Raster third =
      picture_of(120, 120, 0xFFC65B3A, 0xFF7A9E3F, [](double x, double y) { return y > 0.7 * x; });
  for (std::size_t i = 0; i < picture.pixels.size(); ++i) {
    if (i % 120 > 70) picture.pixels[i] = third.pixels[i];
  }
  const auto again = drawn(write_svg(redrawn(picture), "map"), 480, 480);
  ASSERT_TRUE(again);
  std::uint32_t least = 255;
  for (const std::uint32_t pixel : again->pixels) least = std::min(least, pixel >> 24);
  EXPECT_GE(least, 250U);  // 2 %, which nobody sees; the bench counts from there as well
}

TEST(ColourWords, name_colours_as_people_do) {
  const auto named = [](const char* hex) { return colour_words(*parse_colour(hex)); };
  EXPECT_EQ(named("#000"), "black");
  EXPECT_EQ(named("#fff"), "white");
  EXPECT_EQ(named("#808080"), "grey");
  EXPECT_EQ(named("#d03020"), "red");
  EXPECT_EQ(named("#102a80"), "dark blue");
  EXPECT_EQ(named("#2a9d3a"), "green");
  EXPECT_EQ(named("#6b4226"), "brown");
  EXPECT_EQ(named("#ffd93b"), "yellow");
  EXPECT_EQ(named("#7d3fb0"), "purple");
  EXPECT_EQ(named("#f8c4d0"), "pink");
}

}  // namespace
}  // namespace quoin::trace
