#include "pack/share/share_page.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace quoin::pack {
namespace {

using testing::HasSubstr;
using testing::Not;

SharePage small_page() {
  SharePage page;
  page.title = "Reef & <b>Rock</b>";
  page.version = "1.0";
  page.papers = {
      {"A4", "210 x 297 mm", {{"reef 1.0-cards.pdf", "Cards, full colour", 1234567, 3}}}};
  return page;
}

TEST(SharePage, writes_what_the_maker_wrote_as_text) {
  const Bytes html = share_page(small_page());
  EXPECT_THAT(html, HasSubstr("<h1>Reef &amp; &lt;b&gt;Rock&lt;/b&gt;</h1>"));
  EXPECT_THAT(html, Not(HasSubstr("<b>")));
}

TEST(SharePage, names_files_with_their_sizes_and_paper) {
  const Bytes html = share_page(small_page());
  EXPECT_THAT(html, HasSubstr("href=\"reef%201.0-cards.pdf\""));
  EXPECT_THAT(html, HasSubstr("3 sheets, PDF, 1.2 MB"));
  EXPECT_THAT(html, HasSubstr("Cards, full colour<span class=\"heard\"> on A4</span>"));
}

TEST(SharePage, has_neither_script_nor_address_of_another_place) {
  SharePage page = small_page();
  page.website = "javascript:alert(1)";
  const Bytes html = share_page(page);
  EXPECT_THAT(html, Not(HasSubstr("<script")));
  EXPECT_THAT(html, Not(HasSubstr("javascript:")));
  EXPECT_THAT(html, Not(HasSubstr("http")));
  page.website = "https://example.org/\"x";
  EXPECT_THAT(share_page(page), HasSubstr("href=\"https://example.org/&quot;x\""));
}

TEST(SharePage, tells_of_changes_only_when_they_were_looked_for) {
  SharePage page = small_page();
  EXPECT_THAT(share_page(page), Not(HasSubstr("What changed")));
  page.since = "0.9";
  page.changes = {"1 card is new: Eel (e)"};
  EXPECT_THAT(share_page(page), HasSubstr("Since version 0.9:"));
}

}  // namespace
}  // namespace quoin::pack
