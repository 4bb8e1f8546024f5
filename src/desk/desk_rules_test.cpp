#include <gmock/gmock.h>

#include "desk/desk_fixture.h"

namespace quoin::desk {
namespace {

using testing::HasSubstr;
class DeskRules : public testing::Test, protected DeskOnAFolder {};

Json text_edit(const Json& info, const std::string& text) {
  return {{"base", info["revision"]},
          {"label", "write the rules"},
          {"changes", {{{"kind", "text"}, {"file", info["file"]}, {"text", text}}}}};
}

TEST_F(DeskRules, begin_with_a_button_and_follow_the_typing) {
  small_game();
  open();
  Json info = json(get("/api/rules"), "RulesInfo");
  EXPECT_TRUE(info["text"].is_null());
  EXPECT_TRUE(info["form"].is_null());
  const Reply begun = ask("POST", "/api/rules/begin", "{}");
  ASSERT_EQ(begun.status, 200) << begun.body;
  info = json(get("/api/rules"), "RulesInfo");
  EXPECT_THAT(info["text"].get<std::string>(), HasSubstr("## Your turn"));
  EXPECT_EQ(info["findings"], Json::array());
  EXPECT_EQ(info["form"]["kind"], "flat");
  EXPECT_EQ(ask("POST", "/api/rules/begin", "{}").status, 409);

  const Reply typed =
      ask("POST", "/api/edit", written(text_edit(info, "# Mine\n\n{card:nobody}\n")));
  ASSERT_EQ(typed.status, 200) << typed.body;
  EXPECT_EQ(text_of("rules.md"), "# Mine\n\n{card:nobody}\n");
  info = json(get("/api/rules"), "RulesInfo");
  ASSERT_EQ(info["findings"].size(), 1U);
  EXPECT_EQ(info["findings"][0]["id"], "rules.unknown-card");
  EXPECT_EQ(ask("POST", "/api/undo", "{}").status, 200);
  EXPECT_THAT(text_of("rules.md"), HasSubstr("## Your turn"));
}

TEST_F(DeskRules, show_pages_steps_and_sheets) {
  small_game();
  put("rules.md", "# Mine\n\nwords\n");
  open();
  const Json info = json(get("/api/rules"), "RulesInfo");
  const std::string rest = ".png?w=200&r=" + std::to_string(info["revision"].get<int>());
  const Reply page = get("/api/rules/page/0" + rest);
  EXPECT_EQ(page.status, 200);
  EXPECT_THAT(page.body, HasSubstr("PNG"));
  EXPECT_THAT(page.header("Cache-Control"), HasSubstr("immutable"));
  EXPECT_EQ(get("/api/rules/page/99" + rest).status, 404);
  EXPECT_EQ(get("/api/rules/sheet/front" + rest).status, 200);
  EXPECT_EQ(get("/api/rules/step/0" + rest).status, 404);  // a flat sheet has none
  EXPECT_EQ(get("/api/rules/page/0.png?w=9999999").status, 400);
}

}  // namespace
}  // namespace quoin::desk
