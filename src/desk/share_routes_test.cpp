#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "desk/desk_fixture.h"

namespace quoin::desk {
namespace {

using testing::HasSubstr;
using testing::Not;

/// A game of one picture.
class DeskSharing : public testing::Test, protected DeskOnAFolder {
 protected:
  void SetUp() override {
    small_game();
    put("layouts/face.toml",
        "[[element]]\nid = \"art\"\nkind = \"picture\"\ninset = \"bleed\"\n"
        "picture = \"art/gull.svg\"\n");
    put("art/gull.svg",
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 9 9\">"
        "<rect width=\"9\" height=\"9\" fill=\"#204060\"/></svg>");
  }
  [[nodiscard]] Json info() const { return json(get("/api/share"), "ShareInfo"); }
  void edit(const Json& changes) const {
    const Json asked{{"base", state()["revision"]}, {"label", "source"}, {"changes", changes}};
    const Reply reply = ask("POST", "/api/edit", asked.dump());
    ASSERT_EQ(reply.status, 200) << reply.body;
  }
  [[nodiscard]] Json shared(const Json& asked) const {
    (void)json(ask("POST", "/api/share", asked.dump()), "WorkId");
    for (int i = 0; i < 1500; ++i) {
      const Json now = info();
      if (!now["made"].is_null()) return now;
      std::this_thread::sleep_for(std::chrono::milliseconds(20));
    }
    throw std::runtime_error("nothing was shared");
  }
};

TEST_F(DeskSharing, says_of_each_file_what_stands_against_it) {
  open();
  const Json before = info();
  EXPECT_EQ(before["listed"], false);
  EXPECT_EQ(before["name"], "reef");
  ASSERT_EQ(before["files"].size(), 1U);
  EXPECT_EQ(before["files"][0]["file"], "art/gull.svg");
  EXPECT_EQ(before["files"][0]["problem"], "nothing says where art/gull.svg came from");
  EXPECT_TRUE(before["files"][0]["row"].is_null());
  EXPECT_GT(before["licences"].size(), 60U);
}

TEST_F(DeskSharing, begins_a_list_that_is_filled_in_and_taken_back) {
  open();
  (void)json(ask("POST", "/api/share/list", ""), "Done");
  EXPECT_EQ(text_of("art/sources.csv"),
            "file,author,source,licence,changes\r\ngull.svg,,,unknown,\r\n");
  edit({{{"kind", "cell"},
         {"file", "art/sources.csv"},
         {"row", 0},
         {"id", ""},
         {"column", "licence"},
         {"text", "own"}}});
  EXPECT_THAT(text_of("art/sources.csv"), HasSubstr("gull.svg,,,own,"));
  EXPECT_EQ(info()["files"][0]["problem"], "");
  (void)json(ask("POST", "/api/undo"), "UndoAnswer");
  EXPECT_THAT(text_of("art/sources.csv"), HasSubstr("gull.svg,,,unknown,"));
}

TEST_F(DeskSharing, adds_a_row_and_a_column_that_the_list_has_not) {
  put("art/sources.csv", "file,licence\nother.svg,own\n");
  open();
  edit({{{"kind", "column"}, {"file", "art/sources.csv"}, {"op", "add"}, {"column", "author"}},
        {{"kind", "rows"},
         {"file", "art/sources.csv"},
         {"op", "add"},
         {"row", 0},
         {"id", ""},
         {"values", {{"file", "gull.svg"}, {"author", "Mara"}}}}});
  EXPECT_EQ(text_of("art/sources.csv"), "file,licence,author\nother.svg,own,\ngull.svg,,Mara\n");
  EXPECT_EQ(info()["files"][0]["author"], "Mara");
}

TEST_F(DeskSharing, shares_the_game_and_shows_its_page) {
  put("art/sources.csv", "file,author,licence\ngull.svg,Mara,own\n");
  open();
  const Json made = shared({{"since", ""}, {"without", Json::array()}, {"asked", Json::array()}});
  EXPECT_EQ(made["made"]["folder"], "share/reef");
  EXPECT_EQ(made["made"]["editions"].size(), 2U);
  EXPECT_GT(made["made"]["editions"][0]["ink"], made["made"]["editions"][0]["lowInk"]);
  EXPECT_EQ(made["earlier"], Json({"reef"}));
  const Reply page = get("/api/share/page.html");
  EXPECT_EQ(page.status, 200);
  EXPECT_THAT(page.header("Content-Security-Policy"), HasSubstr("sandbox; default-src 'none'"));
  EXPECT_EQ(page.header("X-Frame-Options"), "SAMEORIGIN");
  EXPECT_THAT(page.body, HasSubstr("src=\"data:image/png;base64,iVBORw0K"));
  EXPECT_THAT(page.body, Not(HasSubstr(".pdf\"")));
  const std::string file = made["made"]["files"][0]["name"];
  EXPECT_EQ(get("/api/pack/file?name=" + file).status, 200);
  EXPECT_EQ(get("/api/pack/file?name=share/reef/../../game.toml").status, 404);
  EXPECT_EQ(get("/api/pack/file?name=share/../game.toml").status, 404);
}

TEST_F(DeskSharing, refuses_an_earlier_share_elsewhere) {
  open();
  for (const char* since : {"../other", "/etc", ".."}) {
    const Json asked{{"since", since}, {"without", Json::array()}, {"asked", Json::array()}};
    EXPECT_EQ(ask("POST", "/api/share", asked.dump()).status, 422) << since;
  }
}

TEST_F(DeskSharing, is_framed_by_nobody_else) {
  open();
  EXPECT_EQ(get("/").header("X-Frame-Options"), "DENY");
  EXPECT_THAT(get("/").header("Content-Security-Policy"), HasSubstr("frame-ancestors 'none'"));
}

}  // namespace
}  // namespace quoin::desk
