#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "desk/desk_fixture.h"

namespace quoin::desk {
namespace {

using testing::HasSubstr;

/// A game of 40 poker cards, without a mat until one is begun.
class DeskMat : public testing::Test, protected DeskOnAFolder {
 protected:
  [[nodiscard]] Json mat() const { return json(get("/api/mat"), "MatAnswer")["mat"]; }
  [[nodiscard]] Json begun() const {
    return json(ask("POST", "/api/mat/begin", "{}"), "EditAnswer");
  }
};

TEST_F(DeskMat, is_nothing_until_one_is_begun_and_then_has_places_of_the_cards_size) {
  small_game();
  open();
  EXPECT_TRUE(mat().is_null());
  EXPECT_EQ(get("/api/mat/picture.png?w=600").status, 404);
  EXPECT_EQ(begun()["ok"], true);
  const Json now = mat();
  ASSERT_FALSE(now.is_null());
  EXPECT_EQ(now["file"], "layouts/mat.toml");
  EXPECT_EQ(now["width"], 594.0);
  EXPECT_EQ(now["tiling"]["words"], "8 sheets of A4, portrait, 4 by 2");
  EXPECT_EQ(now["tiling"]["sheets"].size(), 8U);
  ASSERT_FALSE(now["places"].empty());
  EXPECT_EQ(now["places"][0]["element"], "draw");
  EXPECT_EQ(now["places"][0]["width"], 66.5);
  EXPECT_EQ(now["places"][0]["height"], 91.9);
  const auto refused = ask("POST", "/api/mat/begin", "{}");
  EXPECT_EQ(refused.status, 409);
  EXPECT_THAT(refused.body, HasSubstr("has a mat already"));
}

TEST_F(DeskMat, is_taken_back_in_one_step_and_its_layout_stays) {
  small_game();
  open();
  EXPECT_EQ(begun()["ok"], true);
  EXPECT_EQ(state()["undo"], "a mat");
  EXPECT_EQ(ask("POST", "/api/undo", "{}").status, 200);
  EXPECT_TRUE(mat().is_null());
  EXPECT_EQ(begun()["ok"], true) << "the layout that is there is taken as it is";
  EXPECT_FALSE(mat().is_null());
}

TEST_F(DeskMat, has_a_layout_to_edit_and_a_picture_with_a_stamp_that_follows_its_looks) {
  small_game();
  open();
  EXPECT_EQ(begun()["ok"], true);
  const Json layout = json(get("/api/layout?file=layouts/mat.toml"), "LayoutView");
  EXPECT_EQ(layout["elements"][1]["kind"], "place");
  EXPECT_EQ(layout["elements"][1]["box"]["width"], 68.9) << "a pile with the cards beneath it";
  const std::string before = mat()["stamp"];
  const auto picture = get("/api/mat/picture.png?w=300&stamp=" + before);
  EXPECT_EQ(picture.status, 200);
  EXPECT_EQ(picture.body.substr(1, 3), "PNG");
  EXPECT_EQ(get("/api/mat/picture.png?w=99999").status, 400);
  const Json change{{"kind", "value"},
                    {"file", "layouts/mat.toml"},
                    {"path", {"element", 1, "label"}},
                    {"value", "Deck"}};
  const Json asked{{"base", state()["revision"]}, {"label", "label"}, {"changes", {change}}};
  EXPECT_EQ(json(ask("POST", "/api/edit", asked.dump()), "EditAnswer")["ok"], true);
  EXPECT_NE(mat()["stamp"].get<std::string>(), before);
}

TEST_F(DeskMat, is_no_layout_for_cards_to_choose) {
  small_game();
  open();
  EXPECT_EQ(begun()["ok"], true);
  const Json now = state();
  for (const Json& layout : now["layouts"]) EXPECT_NE(layout["file"], "layouts/mat.toml");
}

}  // namespace
}  // namespace quoin::desk
