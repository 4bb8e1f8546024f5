#include "media/pictures/svg_css.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <vector>

namespace quoin::pictures {
namespace {

struct Cleaned {
  std::string css;
  std::vector<std::string> asked, left_out;
};

/// Keeps addresses that start with '#'.
Cleaned cleaned(std::string_view css) {
  Cleaned result;
  result.css = clean_css(css, {[&](std::string_view address) {
                                 result.asked.emplace_back(address);
                                 return address.starts_with('#');
                               },
                               [&](std::string_view keyword, std::string_view) {
                                 result.left_out.emplace_back(keyword);
                               }});
  return result;
}

TEST(CleanCss, leaves_plain_rules_as_they_are) {
  for (const char* css :
       {".a{fill:#c00;stroke-width:2.5px}", "a > b[c=\"url(x)\"] , *{x:'@import'}",
        "fill:rgb(1, 2, 3) !important", ""}) {
    EXPECT_EQ(cleaned(css).css, css);
    EXPECT_TRUE(cleaned(css).asked.empty());
  }
}

TEST(CleanCss, finds_every_spelling_of_an_address) {
  for (const char* css : {"url(x.png)", "url( 'x.png' )", "URL(\"x.png\")", "\\75rl(x.png)",
                          "\\000075 rl(x\\.png)", "u\\rl(x.png)", "url(x.png"}) {
    EXPECT_THAT(cleaned(css).asked, testing::ElementsAre("x.png")) << css;
    EXPECT_EQ(cleaned(css).css, "none") << css;
  }
}

TEST(CleanCss, keeps_addresses_inside_the_drawing) {
  EXPECT_EQ(cleaned("fill:url(#g) red").css, "fill:url(\"#g\") red");
  EXPECT_EQ(cleaned("fill:url(#a\"b)").css, "fill:none");
}

TEST(CleanCss, is_not_fooled_by_words_that_only_look_alike) {
  EXPECT_TRUE(cleaned("x:curl(a) url-x(b) url (c)").asked.empty());
  EXPECT_TRUE(cleaned("/* url(a) @import b; */").asked.empty());
}

TEST(CleanCss, leaves_out_at_rules_with_their_blocks) {
  const Cleaned result = cleaned("@charset 'x';@media a{b{c:d} e{f:g}}.h{i:j}@import \"k;l\";.m{}");
  EXPECT_EQ(result.css, ".h{i:j}.m{}");
  EXPECT_THAT(result.left_out, testing::ElementsAre("@charset", "@media", "@import"));
}

TEST(CleanCss, ends_with_whatever_is_left_open) {
  for (const char* css : {"\\", "url(\\", "\"abc", "/*", "@", "@x{", "@x \"", "url(\"", "a\\7"}) {
    EXPECT_LE(cleaned(css).css.size(), 8U) << css;
  }
}

}  // namespace
}  // namespace quoin::pictures
