// SVGs that want to reach out, never end, or take all memory.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "media/pictures/samples.h"
#include "media/pictures/svg_samples.h"
#include "media/pictures/svg_trial.h"

namespace quoin::pictures {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::Not;
using testing::StartsWith;

std::string repeated(const std::string& text, int times) {
  std::string all;
  for (int i = 0; i < times; ++i) all += text;
  return all;
}

TEST(HostileSvg, reaches_nothing_outside_the_game) {
  const std::vector<std::pair<std::string, std::string>> asks = {
      {"../../secret.png", "it lies outside the game folder"},
      {"../art/../../x.png", "it lies outside the game folder"},
      {"file:///etc/passwd", "only files of the game folder, by relative paths, are read"},
      {"/etc/passwd", "only files of the game folder, by relative paths, are read"},
      {"//host/x.png", "only files of the game folder, by relative paths, are read"},
      {"http://example.org/x.png", "nothing is fetched from the web"},
      {"HTTPS:x", "only files of the game folder, by relative paths, are read"},
      {"gone.png", "there is no file art/gone.png"},
      {"", "art is a folder, not a file"}};
  const MemoryWorld world({{"art/b.png", samples::png({})}});
  for (const auto& [href, reason] : asks) {
    const SvgSample sample(svg_with("<image href='" + href + "' width='9' height='9'/>"), &world);
    EXPECT_THAT(sample.remarks(), ElementsAre("picture.svg-will-not-load: art/a.svg:1 asks for " +
                                              href + ", which will not load: " + reason));
    EXPECT_THAT(sample.look().safe_svg, Not(HasSubstr("image")));
  }
}

TEST(HostileSvg, uses_no_parts_of_other_files) {
  for (const char* element : {"use", "linearGradient", "pattern", "filter", "tref"}) {
    const SvgSample sample(svg_with("<" + std::string(element) + " xlink:href='b.svg#x'/>"));
    EXPECT_THAT(
        sample.remarks(),
        ElementsAre("picture.svg-will-not-load: art/a.svg:1 asks for b.svg#x, which will not "
                    "load: a drawing can use only its own parts here"));
    EXPECT_THAT(sample.look().safe_svg, Not(HasSubstr("b.svg")));
  }
}

TEST(HostileSvg, reaches_nothing_through_its_styles) {
  const SvgSample sample(
      svg_with("<style>@import 'evil.css'; @im\\70ort url(http://x); .a{fill:u\\72l( "
               "\"http://x/y#z\" ) red}\n"
               "@font-face{src:url(f.woff)} @media print{.b{fill:red}} .c{fill:url(#g)}</style>"
               "<g style='mask:url(b.svg#m)' fill='URL(http://x#y)'/><rect clip-path='url(#c)'/>"));
  EXPECT_THAT(
      sample.remarks(),
      ElementsAre(
          "picture.svg-will-not-load: art/a.svg:1 asks for @import 'evil.css';, which will not "
          "load: "
          "only pictures are brought in",
          "picture.svg-will-not-load: art/a.svg:1 asks for @im\\70ort url(http://x);, which will "
          "not "
          "load: only pictures are brought in",
          "picture.svg-will-not-load: art/a.svg:1 asks for http://x/y#z, which will not load: a "
          "drawing can use only its own parts here",
          "picture.svg-will-not-load: art/a.svg:1 asks for a font (@font-face), which will not "
          "load: "
          "fonts come from the game's own list",
          "picture.svg-taken-out: art/a.svg:1 holds the style rule @media; it was taken out",
          "picture.svg-will-not-load: art/a.svg:2 asks for b.svg#m, which will not load: a drawing "
          "can use only its own parts here",
          "picture.svg-will-not-load: art/a.svg:2 asks for http://x#y, which will not load: a "
          "drawing can use only its own parts here"));
  const Bytes& safe = sample.look().safe_svg;
  EXPECT_THAT(safe, HasSubstr(".a{fill:none red}"));
  EXPECT_THAT(safe, HasSubstr(".c{fill:url(&quot;#g&quot;)}"));
  EXPECT_THAT(safe, HasSubstr("clip-path=\"url(&quot;#c&quot;)\""));
  EXPECT_THAT(safe, HasSubstr("style=\"mask:none\" fill=\"none\""));
  EXPECT_THAT(safe, Not(HasSubstr("http://x")));
}

TEST(HostileSvg, includes_nothing_and_follows_no_style_sheets) {
  const SvgSample sample(
      "<?xml-stylesheet href='http://x/s.css'?>" +
      svg_with("<xi:include xmlns:xi='http://www.w3.org/2001/XInclude' href='/etc/passwd'/>"));
  EXPECT_THAT(
      sample.remarks(),
      ElementsAre("picture.svg-will-not-load: art/a.svg:1 asks for a style sheet, which will "
                  "not load: only pictures are brought in",
                  "picture.svg-will-not-load: art/a.svg:1 asks for /etc/passwd, which will "
                  "not load: only pictures are brought in"));
}

TEST(HostileSvg, declares_no_entities) {
  const std::string laughs =
      "<!DOCTYPE svg [<!ENTITY a 'ha'><!ENTITY b '&a;&a;&a;&a;&a;&a;&a;&a;&a;&a;'>"
      "<!ENTITY c '&b;&b;&b;&b;&b;&b;&b;&b;&b;&b;'>]>" +
      svg_with("<text>&c;</text>");
  const std::string refusal =
      "picture.svg-entities: art/a.svg declares entities in line 1, which are not read";
  EXPECT_EQ(SvgSample(laughs).refusal(), refusal);
  EXPECT_EQ(SvgSample("<!DOCTYPE svg [<!ENTITY x SYSTEM 'file:///etc/passwd'>]>" +
                      svg_with("<text>&x;</text>"))
                .refusal(),
            refusal);
  EXPECT_EQ(SvgSample("<!DOCTYPE svg [<!ENTITY % x SYSTEM 'http://x/y.dtd'> %x;]>" + svg_with(""))
                .refusal(),
            refusal);
}

TEST(HostileSvg, gets_no_attributes_from_its_document_type) {
  const SvgSample sample("<!DOCTYPE svg [<!ATTLIST circle onload CDATA 'x()' r CDATA '5'>]>" +
                         svg_with("<circle id='c'/>"));
  EXPECT_THAT(sample.look().safe_svg, HasSubstr("<circle id=\"c\"/>"));
}

TEST(HostileSvg, has_its_endless_turbulence_toned_down) {
  const SvgSample sample(
      svg_with("<filter id='f'><feTurbulence baseFrequency='0.1' "
               "numOctaves='1000000000'/></filter><rect width='9' height='9' "
               "filter='url(#f)'/>"));
  EXPECT_THAT(sample.remarks(),
              ElementsAre("picture.svg-toned-down: art/a.svg:1 asks <feTurbulence> for numOctaves "
                          "1000000000; 8 is used"));
  EXPECT_THAT(sample.look().safe_svg, HasSubstr("numOctaves=\"8\""));
}

TEST(HostileSvg, has_huge_radii_toned_down) {
  const SvgSample sample(
      svg_with("<filter id='f'><feMorphology operator='dilate' radius='1e6 2'/><feGaussianBlur "
               "stdDeviation='1e9'/></filter><rect width='9' height='9' filter='url(#f)'/>"));
  EXPECT_THAT(sample.look().safe_svg, HasSubstr("radius=\"0.127279 0.127279\""));
  EXPECT_THAT(sample.look().safe_svg, HasSubstr("stdDeviation=\"12.7279\""));
}

TEST(HostileSvg, bombs_with_uses_are_refused_unseen) {
  std::string bomb = "<defs><g id='u0'><rect width='1' height='1'/></g>";
  for (int i = 1; i < 30; ++i) {
    const std::string use = "<use href='#u" + std::to_string(i - 1) + "'/>";
    bomb += "<g id='u" + std::to_string(i) + "'>" + repeated(use, 10) + "</g>";
  }
  EXPECT_EQ(SvgSample(svg_with(bomb + "</defs><use href='#u29'/>")).refusal(),
            "picture.svg-too-heavy: art/a.svg draws more than 500000 elements when each use is "
            "followed");
}

TEST(HostileSvg, bombs_with_patterns_masks_and_markers_are_refused_unseen) {
  std::string bomb;
  for (int i = 1; i < 12; ++i) {
    const std::string inner = "<rect style='fill:url(#p" + std::to_string(i - 1) +
                              ")' mask='url(#p" + std::to_string(i - 1) + ")'/>";
    bomb += "<pattern id='p" + std::to_string(i) + "'>" + repeated(inner, 5) + "</pattern>";
  }
  bomb = "<pattern id='p0'><rect/></pattern>" + bomb + "<rect fill='url(#p11)'/>";
  EXPECT_THAT(SvgSample(svg_with(bomb)).refusal(),
              StartsWith("picture.svg-too-heavy: art/a.svg draws"));
  const std::string marked = "<marker id='m'>" + repeated("<circle r='1'/>", 500) +
                             "</marker><path marker-mid='url(#m)' d='M0 0" +
                             repeated("l1 1", 2000) + "'/>";
  EXPECT_THAT(SvgSample(svg_with(marked)).refusal(),
              StartsWith("picture.svg-too-heavy: art/a.svg draws"));
}

TEST(HostileSvg, does_not_draw_itself_inside_itself) {
  EXPECT_EQ(SvgSample(svg_with("<g id='a'>\n<use href='#a'/></g>")).refusal(),
            "picture.svg-circular: art/a.svg:1 draws <g> inside itself");
  EXPECT_THAT(SvgSample(svg_with("<pattern id='p'><rect fill='url(#p)'/></pattern>")).refusal(),
              StartsWith("picture.svg-circular"));
  EXPECT_THAT(SvgSample(svg_with("<mask id='m' style='mask:url(#n)'/><mask id='n' "
                                 "style='mask:url(#m)'/>"))
                  .refusal(),
              StartsWith("picture.svg-circular"));
}

TEST(HostileSvg, does_not_bring_itself_in) {
  MemoryWorld world;
  const std::string self = svg_with("<image href='a.svg' width='9' height='9'/>");
  world.put("art/a.svg", self);
  EXPECT_EQ(SvgSample(self, &world).refusal(),
            "picture.svg-circular: art/a.svg brings in art/a.svg, of which it is part");
  const std::string to_b = svg_with("<image href='b.svg' width='9' height='9'/>");
  world.put("art/b.svg", self);
  EXPECT_EQ(SvgSample(to_b, &world).refusal(),
            "picture.svg-circular: art/b.svg brings in art/a.svg, of which it is part");
}

TEST(HostileSvg, chains_of_references_end_somewhere) {
  std::string chain;
  for (int i = 0; i < 1000; ++i) {
    chain += "<g id='c" + std::to_string(i) + "'><use href='#c" + std::to_string(i + 1) + "'/></g>";
  }
  EXPECT_THAT(SvgSample(svg_with(chain)).refusal(), HasSubstr("has references more than 512 deep"));
  std::string backwards;  // each link is known when the next one asks for it
  for (int i = 1000; i >= 0; --i) {
    backwards +=
        "<g id='c" + std::to_string(i) + "'><use href='#c" + std::to_string(i + 1) + "'/></g>";
  }
  EXPECT_THAT(SvgSample(svg_with(backwards)).refusal(),
              HasSubstr("has references more than 512 deep"));
}

TEST(HostileSvg, stays_within_its_bounds) {
  EXPECT_EQ(SvgSample(svg_with(repeated("<g>", 300) + repeated("</g>", 300))).refusal(),
            "picture.too-large: art/a.svg has elements more than 256 deep inside each other, at "
            "line 1");
  EXPECT_EQ(SvgSample(svg_with(repeated("<g/>", 64'001))).refusal(),
            "picture.too-large: art/a.svg has more than 64000 elements");
  EXPECT_EQ(SvgSample(svg_with(Bytes(5 << 20, ' '))).refusal(),
            "picture.too-large: art/a.svg has 5242987 bytes; an SVG of 4194304 is read at most");
  std::string many = "<g ";
  for (int i = 0; i < 6000; ++i) many += "a" + std::to_string(i) + "='' ";
  EXPECT_EQ(
      SvgSample(svg_with(many + "/>")).refusal(),
      "picture.too-large: art/a.svg has an element of 6000 attributes; 5000 are read at most");
}

TEST(HostileSvg, brings_in_no_more_than_7_mebibytes) {
  const MemoryWorld world({{"art/b.png", samples::png({.width = 900, .height = 900, .bits = 16})}});
  const std::string image = "<image href='b.png' width='9' height='9'/>";
  EXPECT_EQ(SvgSample(svg_with(repeated(image, 30)), &world).refusal(),
            "picture.too-large: art/a.svg brings in pictures of more than 7 MiB or 100 megapixels "
            "together");
}

TEST(HostileSvg, drawings_inside_drawings_end_somewhere) {
  MemoryWorld world;
  for (int i = 0; i < 20; ++i) {
    world.put("art/" + std::to_string(i) + ".svg",
              svg_with("<image href='" + std::to_string(i + 1) + ".svg' width='9' height='9'/>"));
  }
  EXPECT_THAT(SvgSample(svg_with("<image href='0.svg' width='9' height='9'/>"), &world).remarks(),
              testing::Contains(HasSubstr("has pictures more than 8 deep inside each other")));
}

TEST(HostileSvg, says_what_is_wrong_with_a_picture_that_it_brings_in) {
  const MemoryWorld world({{"art/b.png", samples::png({}).substr(0, 60)}, {"art/c.png", "<html>"}});
  EXPECT_THAT(
      SvgSample(svg_with("<image href='b.png'/>\n<image href='c.png'/>"
                         "<image href='data:image/png;base64,AAAA'/>"),
                &world)
          .remarks(),
      ElementsAre("picture.svg-will-not-load: art/a.svg:1 asks for b.png, which will not "
                  "load: it cannot be used\n  art/b.png is damaged: it ends at byte 60, "
                  "before the picture does",
                  "picture.svg-will-not-load: art/a.svg:2 asks for c.png, which will not "
                  "load: it cannot be used\n  art/c.png is no picture: it is a web page "
                  "(HTML)",
                  "picture.svg-will-not-load: art/a.svg:2 asks for a picture inside itself, "
                  "which will not load: it cannot be used\n  the picture inside art/a.svg:2 "
                  "is no picture: it is a file of zero bytes only"));
}

TEST(HostileSvg, filters_are_bounded_in_number) {
  EXPECT_EQ(SvgSample(svg_with(repeated("<g filter='url(#f)'/>", 257))).refusal(),
            "picture.svg-too-heavy: art/a.svg uses filters 257 times; 256 are drawn at most");
  EXPECT_EQ(SvgSample(svg_with("<filter>" + repeated("<feFlood/>", 65) + "</filter>")).refusal(),
            "picture.svg-too-heavy: art/a.svg has a filter of 65 steps; 64 are drawn at most");
}

TEST(HostileSvg, broken_xml_is_placed) {
  EXPECT_EQ(SvgSample(svg_with("<g>\n<path></g>")).refusal(),
            "picture.damaged: art/a.svg is damaged: its XML breaks off in line 2\n"
            "  the reader says: Opening and ending tag mismatch: path line 2 and g");
  EXPECT_THAT(SvgSample(svg_with("").substr(0, 90)).refusal(),
              StartsWith("picture.damaged: art/a.svg is damaged: its XML breaks off in line 1"));
}

TEST(HostileSvg, odd_numbers_and_names_do_no_harm) {
  for (const std::string content :
       {"<rect width='1e999' height='-1e999'/>", "<path d='M nan inf L 1e400 0'/>",
        "<rect stroke-dasharray='1e-4' stroke='red' width='1e9' height='1e9'/>",
        "<pattern id='p' width='1e-9' height='1e-9'/><rect fill='url(#p)' width='9' height='9'/>",
        "<g transform='scale(1e300) rotate(nan)'><text font-size='1e30'>x</text></g>",
        "<svg viewBox='0 0 0 0'/>", "<use href='#'/>", "<g id='&#10;'/>"}) {
    EXPECT_EQ(SvgSample(svg_with(content)).refusal(), "") << content;
  }
}

// The renderer has no way to be stopped, so that what would hang it must do so in a process of its
// own. This one passes every bound on the tree; its convolution looks at 1,000,000 pixels for each.
TEST(Trial, ends_what_would_never_end) {
  samples::MemoryCache cache;
  const std::string heavy =
      "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 9 9' width='9' height='9'><filter "
      "id='f'><feConvolveMatrix order='1000' kernelMatrix='" +
      repeated("1 ", 1'000'000) + "'/></filter><rect width='9' height='9' filter='url(#f)'/></svg>";
  EXPECT_EQ(try_drawing(heavy, &cache), Trial::takes_too_long);
  ASSERT_EQ(cache.kept.size(), 1U);
  EXPECT_EQ(cache.kept.begin()->second, "takes too long");
  EXPECT_EQ(try_drawing(heavy, &cache), Trial::takes_too_long);
  EXPECT_EQ(cache.hits, 1);
}

TEST(Trial, tells_a_sound_drawing_from_one_that_the_renderer_gives_up) {
  EXPECT_EQ(try_drawing(svg_with("<circle r='3'/>"), nullptr), Trial::draws);
  EXPECT_EQ(try_drawing("<svg", nullptr), Trial::gives_up);
}

}  // namespace
}  // namespace quoin::pictures
