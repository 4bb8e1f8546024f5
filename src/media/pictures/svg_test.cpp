#include "media/pictures/svg.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "media/pictures/samples.h"
#include "media/pictures/svg_samples.h"

namespace quoin::pictures {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::Not;

TEST(Svg, takes_its_size_from_what_its_root_gives) {
  const auto size = [](const std::string& attributes) {
    const SvgSample sample("<svg xmlns='http://www.w3.org/2000/svg' " + attributes + "/>");
    return std::pair{sample.look().facts.width, sample.look().facts.height};
  };
  EXPECT_EQ(size("width='20' height='10'"), std::pair(20.0, 10.0));
  EXPECT_EQ(size("viewBox='5 5 30 60'"), std::pair(30.0, 60.0));
  EXPECT_THAT(size("width='1in' height='25.4mm' viewBox='0 0 7 7'"),
              testing::Pair(testing::DoubleNear(96, 1e-4), testing::DoubleNear(96, 1e-4)));
  EXPECT_EQ(size("width='100%' height='100%' viewBox='0 0 40 30'"), std::pair(40.0, 30.0));
}

TEST(Svg, without_a_size_is_refused) {
  EXPECT_EQ(SvgSample("<svg xmlns='http://www.w3.org/2000/svg'><rect width='9' height='9'/></svg>")
                .refusal(),
            "picture.svg-no-size: art/a.svg does not say how wide and high it is");
}

TEST(Svg, gets_a_view_box_so_that_it_scales) {
  const SvgSample sample(
      "<svg xmlns='http://www.w3.org/2000/svg' width='2cm' height='1cm'><rect width='9' "
      "height='9'/></svg>");
  EXPECT_THAT(sample.look().safe_svg, HasSubstr("viewBox=\"0 0 75.5906 37.7953\""));
}

TEST(Svg, without_its_namespace_is_told_what_to_write) {
  EXPECT_EQ(SvgSample("<svg viewBox='0 0 9 9'/>").refusal(),
            "picture.not-a-picture: art/a.svg does not say that its <svg> is SVG");
}

TEST(Svg, keeps_what_is_drawn_and_drops_what_is_not) {
  const SvgSample sample(R"(<?xml version="1.0"?>
<!DOCTYPE svg PUBLIC "-//W3C//DTD SVG 1.1//EN" "http://www.w3.org/Graphics/SVG/1.1/DTD/svg11.dtd">
<s:svg xmlns:s="http://www.w3.org/2000/svg" xmlns:tool="urn:tool" viewBox="0 0 9 9" tool:zoom="3">
  <!-- a comment --><s:title>A shell</s:title><tool:view zoom="2"/>
  <s:g id="a" fill="#c00 &amp; more"><s:path d="M0 0h9v9z" tool:kind="x"/></s:g>
</s:svg>)");
  EXPECT_EQ(
      sample.look().safe_svg,
      "<svg xmlns=\"http://www.w3.org/2000/svg\" "
      "xmlns:xlink=\"http://www.w3.org/1999/xlink\" viewBox=\"0 0 9 9\" width=\"9\" "
      "height=\"9\"><g id=\"a\" fill=\"#c00 &amp; more\"><path d=\"M0 0h9v9z\"/></g></svg>\n");
  EXPECT_THAT(sample.remarks(), ElementsAre());
}

TEST(Svg, written_out_reads_back_as_itself) {
  const SvgSample first(
      svg_with("<style>.a{fill:url(#g)}</style><linearGradient id='g'><stop "
               "offset='1'/></linearGradient><text x='1'>a &lt;b&gt; "
               "<tspan>c</tspan></text>"));
  const SvgSample second(first.look().safe_svg);
  EXPECT_EQ(second.look().safe_svg, first.look().safe_svg);
}

TEST(Svg, says_what_was_taken_out) {
  const SvgSample sample(
      svg_with("<script>alert(1)</script>\n"
               "<rect onclick='x()' width='1' height='1'><animate/></rect>\n"
               "<foreignObject><p xmlns='x'>hi</p></foreignObject>\n"
               "<g onload='y()' onclick='z()'/><textPath/>"));
  EXPECT_THAT(
      sample.remarks(),
      ElementsAre("picture.svg-taken-out: art/a.svg:4 holds <textPath>, which is not drawn; "
                  "it was taken out",
                  "picture.svg-taken-out: art/a.svg:1 holds a script; it was taken out",
                  "picture.svg-taken-out: art/a.svg:2 holds a script (onclick); it was taken "
                  "out\n  2 of them; the first is in line 2",
                  "picture.svg-taken-out: art/a.svg:4 holds a script (onload); it was taken "
                  "out",
                  "picture.svg-taken-out: art/a.svg:3 holds a web page (<foreignObject>); it "
                  "was taken out",
                  "picture.svg-taken-out: art/a.svg:2 holds an animation (<animate>); it was "
                  "taken out"));
  for (const char* gone : {"script", "onclick", "onload", "animate", "foreignObject", "textPath"}) {
    EXPECT_THAT(sample.look().safe_svg, Not(HasSubstr(gone)));
  }
}

TEST(Svg, chooses_english_whoever_reads) {
  const SvgSample sample(
      svg_with("<switch><g systemLanguage='de' id='d'/>"
               "<g systemLanguage='fr, en-GB' id='e'/><g id='f'/></switch>"));
  EXPECT_THAT(sample.look().safe_svg, HasSubstr("<switch><g id=\"e\"/><g id=\"f\"/></switch>"));
  EXPECT_THAT(sample.remarks(), ElementsAre("picture.svg-taken-out: art/a.svg:1 holds a part for "
                                            "readers of \"de\"; it was taken out"));
}

TEST(Svg, notes_text) {
  EXPECT_THAT(
      SvgSample(svg_with("<text>hi</text>")).remarks(),
      ElementsAre("picture.svg-has-text: art/a.svg holds text, which is set in the fonts of "
                  "the game when it is printed"));
}

TEST(Svg, brings_in_pictures_from_its_own_folder_and_beside_it) {
  const MemoryWorld world({{"art/a.png", samples::png({})}, {"icons/b c.jpg", samples::jpeg({})}});
  const SvgSample sample(
      svg_with("<image href='a.png' width='3' height='3'/>"
               "<image xlink:href='../icons/b%20c.jpg?x#y' width='3' height='3'/>"),
      &world);
  EXPECT_THAT(sample.remarks(), ElementsAre());
  EXPECT_THAT(sample.look().safe_svg, HasSubstr("xlink:href=\"data:image/png;base64,iVBORw0K"));
  EXPECT_THAT(sample.look().safe_svg, HasSubstr("xlink:href=\"data:image/jpeg;base64,/9j/"));
}

TEST(Svg, brings_in_as_png_what_the_renderer_would_show_otherwise) {
  const MemoryWorld world(
      {{"art/turned.jpg", samples::jpeg({.orientation = 6})},
       {"art/inks.jpg", samples::jpeg({.kind = samples::JpegKind::cmyk})},
       {"art/tagged.png", samples::png({.profile = samples::swapped_rgb_profile()})},
       {"art/w.webp", samples::webp(samples::WebpKind::lossless, 5, 5)},
       {"art/t.tif", samples::tiff({})}});
  for (const char* name : {"turned.jpg", "inks.jpg", "tagged.png", "w.webp", "t.tif"}) {
    const SvgSample sample(
        svg_with("<image href='" + std::string(name) + "' width='3' height='3'/>"), &world);
    EXPECT_THAT(sample.remarks(), ElementsAre());
    EXPECT_THAT(sample.look().safe_svg, HasSubstr("data:image/png;base64,iVBORw0K")) << name;
  }
}

TEST(Svg, brings_in_other_drawings_made_safe) {
  const MemoryWorld world({{"art/b.svg", svg_with("<script/><circle r='2'/>")}});
  const SvgSample sample(svg_with("<image href='b.svg' width='3' height='3'/>"), &world);
  EXPECT_THAT(sample.remarks(), ElementsAre("picture.svg-taken-out: art/b.svg:1 holds a script; it "
                                            "was taken out"));
  EXPECT_THAT(sample.look().safe_svg, HasSubstr("data:image/svg+xml;base64,"));
}

TEST(Svg, reads_utf_16_and_latin_1) {
  std::string wide = "\xff\xfe";
  for (const char c : svg_with("<circle id='x' r='2'/>")) wide += {c, '\0'};
  EXPECT_THAT(SvgSample(wide).look().safe_svg, HasSubstr("<circle id=\"x\" r=\"2\"/>"));
  const SvgSample latin("<?xml version='1.0' encoding='ISO-8859-1'?>" + svg_with("<g id='\xe9'/>"));
  EXPECT_THAT(latin.look().safe_svg, HasSubstr("<g id=\"\xc3\xa9\"/>"));
}

}  // namespace
}  // namespace quoin::pictures
