#include "trace/colours/pull_svg.h"

#include <gtest/gtest.h>

namespace quoin::trace {
namespace {

const std::vector<Colour> reds{*parse_colour("#c04030"), *parse_colour("#f4e3c1")};

TEST(PullSvg, changes_colours_however_they_are_written_and_nothing_else) {
  const PulledSvg pulled = pull_svg(
      "<svg><!-- fill is #c14131 --><path fill=\"#c14131\" stroke = '#F4E4C2' d=\"M0 0\"/>"
      "<g style=\"fill: rgb(193, 65, 49);stroke-width:2\"/><stop stop-color=\"#f4e3c2\"/></svg>",
      reds, 5);
  EXPECT_EQ(pulled.svg,
            "<svg><!-- fill is #c14131 --><path fill=\"#c04030\" stroke = '#f4e3c1' d=\"M0 0\"/>"
            "<g style=\"fill: #c04030;stroke-width:2\"/><stop stop-color=\"#f4e3c1\"/></svg>");
  EXPECT_EQ(pulled.changed, 4);
}

TEST(PullSvg, leaves_alone_names_references_and_what_is_far_off) {
  for (const char* text :
       {"<path fill=\"red\"/>", "<path fill=\"url(#c04131)\"/>", "<path fill=\"#123456\"/>",
        "<path id=\"my-fill\" data-fill=\"#c14131\"/>", "<use href=\"#c14131\"/>",
        "<path fill=\"rgb(75%, 25%, 20%)\"/>", "<path fill=\"#c1413\"/>",
        "<!-- stroke: #c14131 --><a/>", "<title>fill=\"#c14131\"; fill: #c14131</title>",
        "<a title=\"fill: #c14131\"/>", "<?xml fill=\"#c14131\"?>", "<path fill=\"",
        "<path fill=#c14131", "<!-- fill", "fill", "", "<path fill=\"rgb(1,2\"/>"}) {
    const PulledSvg pulled = pull_svg(text, reds, 5);
    EXPECT_EQ(pulled.svg, text);
    EXPECT_EQ(pulled.changed, 0) << text;
  }
}

TEST(PullSvg, changes_style_sheets) {
  EXPECT_EQ(pull_svg("<style>/* a */ .a { fill : #c14131 }</style><p>fill: #c14131</p>"
                     "<style><![CDATA[.b{stroke:#f4e4c2}]]></style>",
                     reds, 5)
                .svg,
            "<style>/* a */ .a { fill : #c04030 }</style><p>fill: #c14131</p>"
            "<style><![CDATA[.b{stroke:#f4e3c1}]]></style>");
}

TEST(PullSvg, gets_through_whatever_is_cut_off) {
  const Bytes whole =
      "<?xml version='1.0'?><!DOCTYPE svg><svg a=\"1\"><!-- x "
      "--><style><![CDATA[.b{fill:#c14131}]]>"
      "</style><path style='fill: rgb( 1, 2 ,3 )' stroke=\"#c14131\"/>text</svg>";
  for (std::size_t length = 0; length <= whole.size(); ++length) {
    EXPECT_EQ(pull_svg(whole.substr(0, length), {}, 5).svg, whole.substr(0, length));
    (void)pull_svg(whole.substr(0, length), reds, 100);
  }
}

TEST(PullSvg, writes_no_colour_that_is_there_already) {
  EXPECT_EQ(pull_svg("<path fill=\"#c04030\"/>", reds, 5).changed, 0);
}

}  // namespace
}  // namespace quoin::trace
