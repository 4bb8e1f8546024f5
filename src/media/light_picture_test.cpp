#include "media/light_picture.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "base/world.h"

namespace quoin {
namespace {

using testing::HasSubstr;
using testing::Not;

PicturePtr opened(const std::string& svg) {
  MemoryWorld world;
  world.put("a.svg", "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"20\" height=\"10\">" + svg +
                         "</svg>");
  PictureShelf shelf(world);
  Diagnostics found;
  return shelf.open("a.svg", {}, found).value();
}

Bytes light(const std::string& svg) {
  const PicturePtr picture = in_light_inks(*opened(svg));
  return picture ? picture->safe_svg() : Bytes{"none"};
}

TEST(InLightInks, lightens_areas_and_keeps_dark_lines) {
  const Bytes svg = light("<rect width=\"20\" height=\"10\" fill=\"#000\" stroke=\"#102030\"/>");
  EXPECT_THAT(svg, HasSubstr("fill=\"#cccccc\""));
  EXPECT_THAT(svg, HasSubstr("stroke=\"#102030\""));
}

TEST(InLightInks, darkens_light_lines) {
  EXPECT_THAT(light("<path d=\"M0 0h9\" fill=\"none\" stroke=\"#fff\"/>"),
              Not(HasSubstr("stroke=\"#ffffff\"")));
}

TEST(InLightInks, reads_styles_sheets_and_gradients) {
  EXPECT_THAT(light("<rect width=\"9\" height=\"9\" style=\"fill: rgb(0,0,0); stroke:none\"/>"),
              HasSubstr("fill:#cccccc; stroke:none"));
  EXPECT_THAT(light("<style>.a{fill:navy}</style><rect class=\"a\" width=\"9\" height=\"9\"/>"),
              HasSubstr(".a{fill:#cccce6}"));
  EXPECT_THAT(light("<linearGradient id=\"g\"><stop stop-color=\"#000\"/></linearGradient>"
                    "<rect width=\"9\" height=\"9\" fill=\"url(#g)\"/>"),
              HasSubstr("stop-color=\"#cccccc\""));
}

TEST(InLightInks, leaves_masks_and_clips_as_they_are) {
  EXPECT_THAT(light("<mask id=\"m\"><rect width=\"9\" height=\"9\" fill=\"#000\"/></mask>"
                    "<rect width=\"9\" height=\"9\" fill=\"#111\" mask=\"url(#m)\"/>"),
              HasSubstr("fill=\"#000\""));
}

TEST(InLightInks, makes_what_would_be_black_grey) {
  EXPECT_THAT(light("<rect width=\"9\" height=\"9\"/>"), HasSubstr("fill=\"#cccccc\""));
}

TEST(InLightInks, gives_up_on_a_colour_that_it_does_not_know) {
  EXPECT_EQ(light("<rect width=\"9\" height=\"9\" fill=\"hsl(20,50%,50%)\"/>"), "none");
}

TEST(InLightInks, has_a_key_of_its_own) {
  const PicturePtr picture = opened("<rect width=\"9\" height=\"9\" fill=\"#000\"/>");
  EXPECT_NE(in_light_inks(*picture)->key(), picture->key());
}

TEST(LegibleOnLight, reaches_the_contrast_of_wcag_on_the_darkest_tint) {
  const Colour tint = lightened(black);
  for (const Colour colour : {white, Colour{0.9, 0.7, 0.3, 1}, Colour{0.2, 0.7, 0.6, 1}, black}) {
    EXPECT_GE(contrast_ratio(legible_on_light(colour), tint), 4.5) << to_string(colour);
  }
  EXPECT_EQ(legible_on_light(black), black);
}

}  // namespace
}  // namespace quoin
