#include "desk/desk.h"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include <chrono>
#include <filesystem>
#include <fstream>
#include <map>
#include <thread>

#include "desk/desk_fixture.h"
#include "media/picture.h"

namespace quoin::desk {
namespace {
namespace fs = std::filesystem;
using testing::HasSubstr;

class DeskTest : public testing::Test, protected DeskOnAFolder {};

TEST_F(DeskTest, tells_the_game_as_the_page_knows_it) {
  small_game();
  open();
  const Json now = checked_state();
  EXPECT_EQ(now["stateOf"], "game");
  EXPECT_EQ(now["title"], "Reef");
  EXPECT_EQ(now["folder"], "reef");
  EXPECT_EQ(now["columns"], Json({"id", "name", "suit", "copies"}));
  ASSERT_EQ(now["cards"].size(), 3U);
  EXPECT_EQ(now["cards"][0]["cells"], Json({"a", "Adder", "weed", "20"}));
  EXPECT_EQ(now["cards"][0]["front"], "cards/a");
  EXPECT_EQ(now["cards"][0]["back"], "backs/main");
  EXPECT_EQ(now["suits"][0]["colour"], "#226633");
  EXPECT_EQ(now["totals"]["cards"], 40);
  EXPECT_EQ(now["totals"]["sheets"], 5);
  EXPECT_EQ(now["sheets"]["sheets"].size(), 5U);
  EXPECT_EQ(now["sheets"]["sheets"][2]["cards"],
            Json({"a", "a", "b", "b", "b", "b", "b", "b", "b"}));
  EXPECT_EQ(now["sheets"]["sheets"][4]["cards"], Json({"b", "b", "b", "b", "", "", "", "", ""}));
  EXPECT_EQ(now["box"]["kind"], "tuck");
  EXPECT_EQ(now["deckHeight"], now["box"]["deck"]["depth"]);
  EXPECT_GT(now["box"]["room"]["depth"]["low"], 0);
  EXPECT_EQ(now["layouts"][0],
            Json({{"file", "layouts/face.toml"}, {"cards", 3}, {"isBack", false}}));
}

TEST_F(DeskTest, answers_every_question_as_its_table_says) {
  small_game();
  open();
  const Json model = json(get("/api/box/model.json"), "BoxModel");
  EXPECT_EQ(model["frames"].size(), model["steps"].size() * 24 + 1);
  EXPECT_GT(model["parts"][0]["panels"].size(), 8U);
  const Json layout = json(get("/api/layout?file=layouts%2Fface.toml&card=b"), "LayoutView");
  EXPECT_EQ(layout["elements"][1]["id"], "name");
  EXPECT_EQ(layout["elements"][1]["path"], Json({"element", 1}));
  EXPECT_EQ(layout["elements"][1]["box"],
            Json({{"x", 8.0}, {"y", 10.0}, {"width", 47.0}, {"height", 10.0}}));
  EXPECT_EQ(layout["elements"][0]["box"]["x"], -3.0);
  const Json cuts =
      json(get("/api/element-strip?file=layouts/face.toml&element=name"), "ElementCut[]");
  EXPECT_EQ(cuts.size(), 3U);
  const Json schema = json(get("/api/schema"), "Schema");
  EXPECT_TRUE(schema["elements"].contains("picture"));
  EXPECT_TRUE(schema["elements"].contains("stroke"));
  EXPECT_TRUE(schema["game"].contains("card"));
  EXPECT_EQ(json(get("/api/fonts"), "FontFamily[]"),
            Json::array({{{"family", "Noto Sans"}, {"weights", {400, 700}}, {"italic", true}}}));
  EXPECT_TRUE(json(get("/api/art"), "ArtFile[]").empty());
  EXPECT_EQ(json(get("/api/pack"), "Pack")["written"], false);
  EXPECT_EQ(json(get("/api/nonsense"), "Problem")["message"],
            "the desk does not know that question");
}

TEST_F(DeskTest, draws_faces_as_wide_as_they_are_asked_for) {
  small_game();
  open();
  const std::string stamp = state()["drawings"][0]["stamp"];
  for (const int width : {16, 251, 700}) {
    const Reply reply = get(fmt::format("/api/picture/cards/a.png?w={}&stamp={}", width, stamp));
    ASSERT_EQ(reply.status, 200);
    EXPECT_EQ(reply.header("Content-Type"), "image/png");
    EXPECT_THAT(reply.header("Cache-Control"), HasSubstr("immutable"));
    const auto raster = read_png(reply.body);
    ASSERT_TRUE(raster);
    EXPECT_EQ(raster->width, width);
    EXPECT_NEAR(raster->height, width * 88.9 / 63.5, 1);
    EXPECT_LT(raster->pixels[0] >> 24, 255U) << "the corner is round";
    const auto middle = static_cast<std::size_t>(raster->height / 2 * width + width / 2);
    EXPECT_EQ(raster->pixels[middle], 0xFFE8E0D0U);
  }
  const auto bleed = read_png(get("/api/picture/cards/a.png?w=139&bleed=1").body);
  ASSERT_TRUE(bleed);
  EXPECT_NEAR(bleed->height, 139 * 94.9 / 69.5, 1);
  EXPECT_EQ(bleed->pixels[0], 0xFFE8E0D0U);
  for (const char* width : {"15", "3001", "x", "-5", "1e3", "99999999999"}) {
    EXPECT_EQ(get(fmt::format("/api/picture/cards/a.png?w={}", width)).status, 400) << width;
  }
}

TEST_F(DeskTest, lets_the_browser_keep_what_did_not_change) {
  small_game();
  open();
  const Reply first = get("/api/picture/cards/a.png?w=64");
  EXPECT_EQ(first.header("Cache-Control"), "private, no-cache");
  const Reply again = ask("GET", "/api/picture/cards/a.png?w=64", {},
                          "If-None-Match: " + first.header("ETag") + "\r\n");
  EXPECT_EQ(again.status, 304);
  EXPECT_EQ(again.body, "");
}

TEST_F(DeskTest, draws_sheets_nets_and_fonts) {
  small_game();
  open();
  std::map<std::string, std::uint32_t> seen;  // the pixel in the middle of each side
  for (const char* side : {"front", "back", "light"}) {
    const auto sheet = read_png(get(fmt::format("/api/sheet/0/{}.png?w=210", side)).body);
    ASSERT_TRUE(sheet) << side;
    EXPECT_EQ(sheet->width, 210);
    EXPECT_EQ(sheet->height, 297);
    const std::uint32_t middle = sheet->pixels[static_cast<std::size_t>(160 * 210 + 105)];
    seen[side] = middle;
  }
  EXPECT_EQ(seen["front"], 0xFFE8E0D0U);
  EXPECT_EQ(seen["back"], 0xFF204060U);
  EXPECT_LT(seen["light"] & 255, 0xD0U) << "the back shines through";
  EXPECT_EQ(get("/api/sheet/5/front.png").status, 404);
  EXPECT_EQ(get("/api/sheet/-1/front.png").status, 404);
  EXPECT_EQ(get("/api/sheet/0/inside.png").status, 404);
  const auto net = read_png(get("/api/box/net/0.png?w=600").body);
  ASSERT_TRUE(net);
  EXPECT_EQ(net->width, 600);
  EXPECT_EQ(get("/api/box/net/1.png").status, 404);
  EXPECT_TRUE(read_png(get("/api/font-sample/Noto%20Sans.png").body));
  EXPECT_EQ(get("/api/font-sample/Nonsense.png").status, 404);
}

TEST_F(DeskTest, hands_out_drawings_only_to_be_saved) {
  small_game();
  open();
  const Reply reply = get("/api/drawing/cards/a.svg");
  ASSERT_EQ(reply.status, 200);
  EXPECT_EQ(reply.header("Content-Security-Policy"), "sandbox");
  EXPECT_EQ(reply.header("Content-Disposition"), "attachment; filename=\"a.svg\"");
  EXPECT_THAT(reply.body, HasSubstr("<svg"));
}

TEST_F(DeskTest, sees_what_another_program_changed) {
  small_game();
  open();
  const Json before = checked_state();
  put("cards.csv", "id,name,suit,copies\na,Adder,weed,20\nb,Bear,,20\nc,Cod,weed,0\n");
  const Json after =
      state_when([](const Json& now) { return now["cards"][1]["cells"][1] == "Bear"; });
  EXPECT_EQ(after["drawings"][0]["stamp"], before["drawings"][0]["stamp"]);
  EXPECT_NE(after["drawings"][1]["stamp"], before["drawings"][1]["stamp"]);
  EXPECT_GT(after["revision"], before["revision"]);
}

TEST_F(DeskTest, keeps_the_stamp_of_a_row_that_moves) {
  small_game();
  open();
  const Json before = checked_state();
  put("cards.csv", "id,name,suit,copies\nb,Boar,,20\na,Adder,weed,20\nc,Cod,weed,0\n");
  const Json after = state_when([](const Json& now) { return now["cards"][0]["id"] == "b"; });
  EXPECT_EQ(after["drawings"][0]["stamp"], before["drawings"][1]["stamp"]);
  EXPECT_EQ(after["drawings"][1]["stamp"], before["drawings"][0]["stamp"]);
}

TEST_F(DeskTest, tells_pages_that_something_changed) {
  small_game();
  open();
  (void)checked_state();
  RawClient page(desk_->port());
  page.send(fmt::format("GET /api/events?token={} HTTP/1.1\r\nHost: 127.0.0.1:{}\r\n\r\n",
                        desk_->token(), desk_->port()));
  std::string heard = page.receive_some();
  put("cards.csv", "id,name,suit,copies\na,Asp,weed,20\n");
  for (int i = 0; i < 50 && heard.find("event: state") == std::string::npos; ++i) {
    heard += page.receive_some(500);
  }
  EXPECT_THAT(heard, HasSubstr("text/event-stream"));
  EXPECT_THAT(heard, HasSubstr("event: state\ndata: {\"revision\":"));
}

TEST_F(DeskTest, goes_on_when_the_game_cannot_be_read) {
  small_game();
  open();
  (void)checked_state();
  put("game.toml", "[game\ntitle = ");
  const Json broken = state_when([](const Json& now) { return now["errors"] > 0; });
  EXPECT_EQ(broken["findings"][0]["place"]["file"], "game.toml");
  EXPECT_NE(broken["findings"][0]["source"], "");
  small_game();
  (void)state_when([](const Json& now) { return now["errors"] == 0 && now["title"] == "Reef"; });
}

TEST_F(DeskTest, leads_no_question_out_of_the_game) {
  small_game();
  std::ofstream(root_ / "secret.toml") << "secret = 1\n";
  std::ofstream(root_ / "secret.png") << "secret";
  open();
  const std::string ways[] = {
      "../secret.toml",  "..%2fsecret.toml",   "%2e%2e/secret.toml",       "/etc/passwd",
      "..\\secret.toml", "a%00../secret.toml", "layouts/../../secret.toml"};
  for (const std::string& way : ways) {
    for (const std::string& target :
         {"/" + way, "/assets/" + way, "/api/picture/" + way + ".png",
          "/api/drawing/" + way + ".svg", "/api/sheet/" + way + "/front.png",
          "/api/box/net/" + way + ".png", "/api/font-sample/" + way + ".png",
          "/api/layout?file=" + way + "&card=" + way,
          "/api/element-strip?file=" + way + "&element=x", "/api/pack/file?name=" + way}) {
      const Reply reply = get(target);
      EXPECT_EQ(reply.body.find("secret = 1"), std::string::npos) << target;
      EXPECT_EQ(reply.body.find("root:"), std::string::npos) << target;
      const bool is_list = target.find("element-strip") != std::string::npos;
      EXPECT_EQ(reply.status == 200, is_list) << target;
    }
    EXPECT_EQ(ask("POST", "/api/open", "{\"name\":\"" + way + "\"}").status / 100, 4) << way;
  }
  EXPECT_EQ(shown_outside_, "");
}

TEST_F(DeskTest, takes_pictures_and_nothing_else) {
  small_game();
  open();
  const std::string svg =
      "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"4\" height=\"4\"><rect width=\"4\" "
      "height=\"4\"/></svg>";
  const auto put_at = [&](const std::string& to) {
    return json(ask("POST", "/api/upload?to=" + to, svg), "UploadAnswer")["file"];
  };
  EXPECT_EQ(put_at("art/weed.svg"), "art/weed.svg");
  EXPECT_EQ(put_at("art/weed.svg"), "art/weed-2.svg") << "never over a file that is there";
  EXPECT_EQ(put_at("../../x.png"), "art/x.svg") << "the ending follows from what it is";
  EXPECT_EQ(put_at("art/.hidden%00%0a.svg"), "art/hidden.svg");
  EXPECT_EQ(text_of("art/weed.svg"), svg);
  EXPECT_FALSE(fs::exists(root_ / "x.svg"));
  const Reply other = ask("POST", "/api/upload?to=art/a.png", "#!/bin/sh\necho\n");
  EXPECT_EQ(other.status, 415);
  (void)json(other, "Problem");
  const Json art = json(get("/api/art"), "ArtFile[]");
  EXPECT_EQ(art.size(), 4U);
}

TEST_F(DeskTest, puts_no_picture_through_a_link_out_of_the_game) {
  small_game();
  fs::create_directories(root_ / "elsewhere");
  fs::create_directory_symlink(root_ / "elsewhere", folder_ / "art");
  open();
  const std::string svg = "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"4\" height=\"4\"/>";
  EXPECT_EQ(ask("POST", "/api/upload?to=art/a.svg", svg).status, 403);
  EXPECT_TRUE(fs::is_empty(root_ / "elsewhere"));
}

TEST_F(DeskTest, makes_a_pack_and_shows_it) {
  small_game();
  open();
  const Json work =
      json(ask("POST", "/api/make", R"({"parts":["home"],"decks":1,"only":[]})"), "WorkId");
  EXPECT_EQ(work["id"], "make-1");
  Json pack;
  for (int i = 0; i < 600; ++i) {
    pack = json(get("/api/pack"), "Pack");
    if (pack["written"] == true) break;
    std::this_thread::sleep_for(std::chrono::milliseconds(50));
  }
  ASSERT_EQ(pack["written"], true);
  EXPECT_EQ(pack["files"][0]["name"], "home/cards.pdf");
  EXPECT_EQ(pack["files"][0]["what"], "card sheets for your printer, both sides in turn");
  const Reply file = get("/api/pack/file?name=home/cards.pdf");
  EXPECT_EQ(file.status, 200);
  EXPECT_TRUE(file.body.starts_with("%PDF-"));
  EXPECT_EQ(file.header("Content-Disposition"), "attachment; filename=\"cards.pdf\"");
  EXPECT_EQ(ask("POST", "/api/open", R"({"name":"home/cards.pdf"})").status, 200);
  EXPECT_EQ(shown_outside_, (fs::canonical(folder_) / "pack/home/cards.pdf").string());
  EXPECT_EQ(ask("POST", "/api/stop", R"({"id":"make-1"})").status, 404) << "it is done";
  EXPECT_EQ(ask("POST", "/api/make", R"({"parts":["all"],"decks":1,"only":[]})").status, 422);
  EXPECT_EQ(ask("POST", "/api/make", R"({"parts":[]})").status, 422);
  EXPECT_EQ(ask("POST", "/api/make", "nonsense").status, 400);
}

TEST_F(DeskTest, begins_a_new_game) {
  open();
  EXPECT_EQ(state()["stateOf"], "empty");
  EXPECT_EQ(ask("POST", "/api/new", R"({"from":"pictures","title":"T","size":""})").status, 422);
  EXPECT_EQ(ask("POST", "/api/new", R"({"from":"starter","title":"T","size":"no size"})").status,
            422);
  EXPECT_EQ(ask("POST", "/api/new", R"({"from":"starter","title":"Rock pools","size":""})").status,
            200);
  const Json now = state();
  EXPECT_EQ(now["stateOf"], "game");
  EXPECT_EQ(now["title"], "Rock pools");
  EXPECT_EQ(ask("POST", "/api/new", R"({"from":"starter","title":"T","size":""})").status, 409);
  put("game.toml", text_of("game.toml") + "# seen\n");
  (void)state_when([&](const Json& later) { return later["revision"] > now["revision"]; });
}

TEST_F(DeskTest, begins_a_game_with_pictures_that_were_dropped_on_it) {
  open();
  const std::string svg =
      "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"635\" height=\"889\"><rect width=\"9\" "
      "height=\"9\"/></svg>";
  for (const char* name : {"Cod.svg", "Adder%20x3.svg", "back.svg"}) {
    EXPECT_EQ(ask("POST", std::string("/api/new-picture?name=") + name, svg).status, 200);
  }
  ASSERT_EQ(ask("POST", "/api/new", R"({"from":"pictures","title":"Fish","size":"poker"})").status,
            200);
  const Json now = state();
  EXPECT_EQ(now["cards"].size(), 2U);
  EXPECT_EQ(now["totals"]["cards"], 4);
}

TEST(Desk, says_why_it_cannot_be_opened) {
  const fs::path file = fs::temp_directory_path() / fmt::format("quoin-desk-file-{}", ::getpid());
  std::ofstream(file) << "x";
  DeskWishes wishes;
  wishes.folder = file.string();
  const auto opened = Desk::open(wishes);
  fs::remove(file);
  ASSERT_TRUE(std::holds_alternative<Refusal>(opened));
  EXPECT_EQ(std::get<Refusal>(opened).message,
            file.string() + " is not a folder, and cannot be made one");
}

}  // namespace
}  // namespace quoin::desk
