#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "desk/desk_fixture.h"

namespace quoin::desk {
namespace {

using testing::HasSubstr;

class DeskContract : public testing::Test, protected DeskOnAFolder {};

constexpr const char* small_svg =
    "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"635\" height=\"889\"><rect width=\"9\" "
    "height=\"9\"/></svg>";
constexpr const char* from_pictures = R"({"from":"pictures","title":"Fish","size":"poker"})";

TEST_F(DeskContract, tells_the_colours_that_the_maker_named) {
  small_game();
  put("game.toml",
      text_of("game.toml") + "[colours]\nink = \"#1d2b33\"\nsand = \"#fff8\"\nodd = \"wet\"\n");
  open();
  const Json colours = state()["colours"];
  ASSERT_EQ(colours.size(), 3U);
  EXPECT_EQ(colours[0]["name"], "ink");
  EXPECT_EQ(colours[0]["value"], "#1d2b33");
  EXPECT_EQ(colours[1]["value"], "#ffffff88");
  EXPECT_EQ(colours[2]["value"], nullptr) << "no colour yet";
  EXPECT_EQ(colours[0]["place"]["file"], "game.toml");
  EXPECT_EQ(colours[0]["place"]["line"], 22);
  EXPECT_EQ(colours[0]["place"]["column"], 7);
}

TEST_F(DeskContract, lists_what_was_printed_again) {
  small_game();
  open();
  EXPECT_TRUE(json(get("/api/pack"), "Pack")["reprint"].empty());
  (void)json(ask("POST", "/api/make", R"({"parts":["home"],"decks":1,"only":["b"]})"), "WorkId");
  Json pack;
  for (int i = 0; i < 600; ++i) {
    pack = json(get("/api/pack"), "Pack");
    if (!pack["reprint"].empty()) break;
    std::this_thread::sleep_for(std::chrono::milliseconds(50));
  }
  ASSERT_FALSE(pack["reprint"].empty());
  EXPECT_EQ(pack["written"], false) << "the pack itself is another matter";
  EXPECT_EQ(pack["reprint"][0]["name"], "reprint/home/cards.pdf");
  EXPECT_EQ(pack["reprint"][0]["what"], "card sheets for your printer, both sides in turn");
  const Reply file = get("/api/pack/file?name=reprint/home/cards.pdf");
  EXPECT_EQ(file.status, 200);
  EXPECT_TRUE(file.body.starts_with("%PDF-"));
  EXPECT_EQ(get("/api/pack/file?name=home/cards.pdf").status, 404);
  EXPECT_EQ(get("/api/pack/file?name=reprint/").status, 404);
  EXPECT_EQ(get("/api/pack/file?name=reprint/../game.toml").status, 404);
  EXPECT_EQ(ask("POST", "/api/open", R"({"name":"reprint/home/cards.pdf"})").status, 200);
  const auto place = std::filesystem::canonical(folder_) / "reprint/home/cards.pdf";
  EXPECT_EQ(shown_outside_, place.string());
  EXPECT_EQ(ask("POST", "/api/open", R"({"name":"reprint/game.toml"})").status, 404);
}

TEST_F(DeskContract, begins_a_game_with_the_pictures_that_lie_in_the_folder) {
  put("Cod.svg", small_svg);
  put("more/Adder x3.svg", small_svg);
  put("notes.txt", "mine\n");
  open();
  EXPECT_EQ(state()["stateOf"], "empty");
  EXPECT_EQ(json(get("/api/art"), "ArtFile[]").size(), 2U);
  const Reply made = ask("POST", "/api/new", from_pictures);
  ASSERT_EQ(made.status, 200) << made.body;
  const Json now = state();
  EXPECT_EQ(now["stateOf"], "game");
  EXPECT_EQ(now["totals"]["cards"], 4);
  EXPECT_EQ(now["cards"][1]["cells"], Json({"Adder", "Adder", "more/Adder x3.svg", "3"}));
  EXPECT_EQ(text_of("notes.txt"), "mine\n");
  EXPECT_EQ(text_of("Cod.svg"), small_svg);
  const std::filesystem::directory_iterator art(folder_ / "art"), end;
  EXPECT_EQ(std::distance(art, end), 1) << "the list of sources; no picture is there twice";
  EXPECT_EQ(ask("POST", "/api/new", from_pictures).status, 409);
}

TEST_F(DeskContract, puts_no_new_game_over_what_is_there) {
  put("Cod.svg", small_svg);
  put("layouts/face.toml", "# mine\n");
  open();
  const Reply refused = ask("POST", "/api/new", from_pictures);
  EXPECT_EQ(refused.status, 422);
  EXPECT_EQ(json(refused, "FindingAnswer")["message"], "layouts/face.toml is there already");
  EXPECT_EQ(text_of("layouts/face.toml"), "# mine\n");
  EXPECT_FALSE(std::filesystem::exists(folder_ / "game.toml"));
  EXPECT_FALSE(std::filesystem::exists(folder_ / "cards.csv"));
  EXPECT_EQ(state()["stateOf"], "empty");
}

TEST_F(DeskContract, puts_no_new_game_through_a_link_out_of_the_folder) {
  put("Cod.svg", small_svg);
  std::filesystem::create_directories(root_ / "elsewhere");
  std::filesystem::create_directory_symlink(root_ / "elsewhere", folder_ / "layouts");
  open();
  const Reply refused = ask("POST", "/api/new", from_pictures);
  EXPECT_EQ(refused.status, 422);
  EXPECT_EQ(json(refused, "FindingAnswer")["message"], "layouts leads out of the folder");
  EXPECT_TRUE(std::filesystem::is_empty(root_ / "elsewhere"));
  EXPECT_FALSE(std::filesystem::exists(folder_ / "cards.csv"));
}

TEST_F(DeskContract, lets_its_page_run_nothing_and_style_nothing_that_is_not_its_own) {
  small_game();
  open();
  const std::string policy = get("/").header("Content-Security-Policy");
  EXPECT_EQ(policy.find("unsafe"), std::string::npos);
  EXPECT_THAT(policy, HasSubstr("default-src 'none'"));
  EXPECT_THAT(policy, HasSubstr("script-src 'self';"));
  EXPECT_THAT(policy, HasSubstr("style-src 'self';"));
}

}  // namespace
}  // namespace quoin::desk
