#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "desk/desk_fixture.h"
#include "formats/png/png.h"

namespace quoin::desk {
namespace {

using testing::HasSubstr;

/// 40 cards, nine to a sheet, a plain back.
class DeskMaking : public testing::Test, protected DeskOnAFolder {
 protected:
  [[nodiscard]] Json made() const { return json(get("/api/making"), "MakingInfo"); }
  [[nodiscard]] Json edit(const std::string& key, const Json& value) const {
    const Json now = state();
    const Json change{
        {"kind", "value"}, {"file", "game.toml"}, {"path", {"cutting", key}}, {"value", value}};
    const Json asked{{"base", now["revision"]}, {"label", key}, {"changes", {change}}};
    return json(ask("POST", "/api/edit", asked.dump()), "EditAnswer");
  }
};

/// A printer that puts every back 3 mm too far to the right and strays little.
constexpr const char* shifting_printer =
    "name = \"Shifting\"\npaper = \"A4\"\nbacks = \"printer\"\nflip = \"long-edge\"\n"
    "[back]\nshift = [3, 0]\n[spread]\nshift = [0.1, 0.2]\nturn = 0\n";

TEST_F(DeskMaking, tells_each_cut_of_the_plan) {
  small_game();
  open();
  const Json cutting = made()["cutting"];
  EXPECT_EQ(cutting["tool"], "rotary trimmer");
  EXPECT_EQ(cutting["fence"], true);
  int cuts = 0, stacks = 0, settings = 0;
  for (const Json& kind : cutting["kinds"]) {
    stacks += kind["stacks"].get<int>();
    std::string last;
    for (const Json& step : kind["steps"]) {
      cuts += step["cuts"].get<int>() * kind["stacks"].get<int>();
      if (step["setting"].is_null()) continue;
      if (step["setting"] != last) ++settings;
      last = step["setting"];
      EXPECT_THAT(step["words"].get<std::string>(), HasSubstr(last + " mm"));
    }
  }
  EXPECT_EQ(cutting["cuts"], cuts);
  EXPECT_EQ(cutting["stacks"], stacks);
  EXPECT_EQ(cutting["settings"], settings);
  // By hand: 40 cards are four sheets of nine and one of four. r·c + 3 cuts a full sheet that
  // touches, and the last rides along or is cut by itself.
  EXPECT_EQ(cutting["kinds"][0]["pieces"], 9);
  EXPECT_EQ(cutting["hand"][0]["kind"], "punch");
  EXPECT_EQ(cutting["hand"][0]["count"], 160);
  EXPECT_EQ(cutting["hand"].back()["kind"], "glue");
  EXPECT_GE(cutting["cautions"].size(), 4U);
}

TEST_F(DeskMaking, follows_the_tool_and_takes_it_back) {
  small_game();
  open();
  const Json before = made();
  const std::string text = text_of("game.toml");
  EXPECT_EQ(before["wishes"]["tool"], "rotary trimmer");
  (void)edit("tool", "guillotine");
  const Json after = made();
  EXPECT_THAT(text_of("game.toml"), HasSubstr("[cutting]\ntool = \"guillotine\""));
  EXPECT_EQ(after["cutting"]["tool"], "guillotine");
  EXPECT_LT(after["cutting"]["stacks"], before["cutting"]["stacks"]) << "it takes all at once";
  EXPECT_NE(after["cutting"]["stamp"], before["cutting"]["stamp"]);
  (void)edit("stack-sheets", 2);
  EXPECT_EQ(made()["wishes"]["stack-sheets"], 2);
  EXPECT_EQ(made()["cutting"]["kinds"][0]["atOnce"], 2);
  (void)json(ask("POST", "/api/undo"), "UndoAnswer");
  (void)json(ask("POST", "/api/undo"), "UndoAnswer");
  EXPECT_EQ(text_of("game.toml"), text);
  EXPECT_EQ(made()["cutting"]["stamp"], before["cutting"]["stamp"]);
}

TEST_F(DeskMaking, draws_each_step_in_the_shape_that_is_asked_for) {
  small_game();
  open();
  const Json kinds = made()["cutting"]["kinds"];
  for (std::size_t step = 0; step < kinds[0]["steps"].size(); ++step) {
    const Reply reply = get(fmt::format("/api/cutting/0/{}.svg?w=800&h=600&ink=paper", step));
    ASSERT_EQ(reply.status, 200);
    EXPECT_EQ(reply.header("Content-Type"), "image/svg+xml");
    EXPECT_EQ(reply.header("Content-Security-Policy"), "sandbox");
    EXPECT_THAT(reply.body, HasSubstr("width=\"120mm\" height=\"90mm\""));
  }
  const std::string paper = get("/api/cutting/0/0.svg?w=800&h=600&ink=paper").body;
  const std::string dark = get("/api/cutting/0/0.svg?w=800&h=600&ink=dark").body;
  EXPECT_NE(paper, dark);
  EXPECT_EQ(get("/api/cutting/corner.svg?w=300&h=200&ink=dark").status, 200);
  EXPECT_EQ(get("/api/cutting/0/99.svg?w=800&h=600&ink=paper").status, 404);
  EXPECT_EQ(get("/api/cutting/9/0.svg?w=800&h=600&ink=paper").status, 404);
  EXPECT_EQ(get("/api/cutting/-1/0.svg?w=800&h=600&ink=paper").status, 404);
  EXPECT_EQ(get("/api/cutting/0.svg?w=800&h=600&ink=paper").status, 404);
  for (const char* wrong : {"w=0&h=600&ink=paper", "w=800&ink=paper", "w=800&h=600&ink=red",
                            "w=800&h=99999&ink=paper", "w=1e3&h=600&ink=paper"}) {
    EXPECT_EQ(get(fmt::format("/api/cutting/0/0.svg?{}", wrong)).status, 400) << wrong;
  }
}

TEST_F(DeskMaking, has_no_steps_where_there_is_no_fresh_edge) {
  small_game();
  std::string game = text_of("game.toml");
  game.replace(game.find("grid = \"3x3\""), 12, "paper = \"190.5x266.7\"\ngrid = \"3x3\"");
  put("game.toml", game + "[printer]\nmargin = 0\n");
  open();
  const Json cutting = made()["cutting"];
  EXPECT_TRUE(cutting["kinds"].empty());
  EXPECT_EQ(cutting["cuts"], 0);
  bool is_told = false;
  const Json now = checked_state();
  for (const Json& one : now["findings"]) {
    is_told = is_told || one["id"] == "cutting.no-fresh-edge";
  }
  EXPECT_TRUE(is_told);
  EXPECT_EQ(get("/api/cutting/0/0.svg?w=800&h=600&ink=paper").status, 404);
  EXPECT_EQ(json(get("/api/likely-cuts?key=cards/a"), "Problem")["message"],
            "there is no plan for cutting these sheets");
}

TEST_F(DeskMaking, tells_where_the_cuts_of_a_face_are_likely_to_fall) {
  small_game();
  open();
  const Json front = json(get("/api/likely-cuts?key=cards/a"), "LikelyCuts");
  ASSERT_EQ(front["cuts"].size(), 40U);
  for (const Json& cut : front["cuts"]) {
    ASSERT_EQ(cut.size(), 8U);
    EXPECT_NEAR(cut[2].get<double>() - cut[0].get<double>(), 63.5, 4);
    EXPECT_NEAR(cut[5].get<double>() - cut[3].get<double>(), 88.9, 4);
  }
  EXPECT_EQ(front["rare"], "1 in 20");
  EXPECT_EQ(front["chances"].size(), 2U) << "there is no border";
  const Json back = json(get("/api/likely-cuts?key=backs/main"), "LikelyCuts");
  const auto farthest = [](const Json& view) {
    double far = 0;
    for (const Json& cut : view["cuts"]) far = std::max(far, std::abs(cut[0].get<double>()));
    return far;
  };
  EXPECT_GT(farthest(back), farthest(front)) << "backs have the register to reckon with too";
  EXPECT_EQ(front, json(get("/api/likely-cuts?key=cards/a"), "LikelyCuts")) << "always the same";
  EXPECT_EQ(json(get("/api/likely-cuts?key=cards/c"), "Problem")["message"], "c lies on no sheet");
  EXPECT_EQ(get("/api/likely-cuts?key=cards/none").status, 404);
}

TEST_F(DeskMaking, tells_what_decks_take) {
  small_game();
  put("game.toml", text_of("game.toml") + "[prices]\ncurrency = \"EUR\"\nsheet = 0.5\n");
  open();
  const Json costs = made()["costs"];
  EXPECT_EQ(costs["decks"], Json({1, 5, 20}));
  EXPECT_EQ(costs["groups"][2]["rows"][0]["what"], "Paper");
  for (const Json& group : costs["groups"]) {
    for (const Json& row : group["rows"]) EXPECT_EQ(row["values"].size(), 3U);
  }
}

TEST_F(DeskMaking, says_that_the_register_is_assumed_without_a_profile) {
  small_game();
  open();
  const Json backs = made()["register"];
  EXPECT_EQ(backs["known"], "assumed");
  EXPECT_EQ(backs["corrected"], false);
  ASSERT_EQ(backs["bands"].size(), 9U);
  EXPECT_GT(backs["bands"][0]["reachX"], 1.5);
  EXPECT_EQ(get("/api/sheet/0/uncorrected.png?w=420").body,
            get("/api/sheet/0/light.png?w=420").body);
}

TEST_F(DeskMaking, draws_backs_where_the_measured_printer_puts_them) {
  small_game();
  put("printers/shifting.toml", shifting_printer);
  put("game.toml", text_of("game.toml") + "[printer]\nprofile = \"shifting\"\n");
  open();
  const Json backs = made()["register"];
  EXPECT_EQ(backs["known"], "measured");
  EXPECT_EQ(backs["printer"], "shifting");
  EXPECT_EQ(backs["corrected"], true);
  EXPECT_NEAR(backs["bands"][0]["reachX"], 0.2, 1e-9);
  EXPECT_NEAR(backs["bands"][0]["reachY"], 0.4, 1e-9);
  const auto light = read_png(get("/api/sheet/0/light.png?w=420").body);
  const auto off = read_png(get("/api/sheet/0/uncorrected.png?w=420").body);
  ASSERT_TRUE(light && off);
  // Two pixels a millimetre. 1.5 mm past the bleed of the last column there is only paper, unless
  // the back lies 3 mm too far to the right and its blue is seen through.
  const Json trim = backs["bands"][2]["trim"];
  const double x = trim["x"].get<double>() + 63.5 + 3 + 1.5, y = trim["y"].get<double>() + 40;
  const auto at = static_cast<std::size_t>(y * 2) * 420 + static_cast<std::size_t>(x * 2);
  EXPECT_EQ(light->pixels[at], 0xFFFFFFFFU);
  const std::uint32_t seen = off->pixels[at];
  EXPECT_LT(seen & 255, 220U);
  EXPECT_LT((seen >> 16) & 255, seen & 255) << "blue";
}

TEST_F(DeskMaking, says_when_a_profile_does_not_fit_these_sheets) {
  small_game();
  std::string profile = shifting_printer;
  profile.replace(profile.find("long-edge"), 9, "short-edge");
  put("printers/shifting.toml", profile);
  put("game.toml", text_of("game.toml") + "[printer]\nprofile = \"shifting\"\n");
  open();
  const Json backs = made()["register"];
  EXPECT_EQ(backs["known"], "measured");
  EXPECT_EQ(backs["corrected"], false);
  EXPECT_THAT(backs["words"][0].get<std::string>(), HasSubstr("nothing is corrected"));
}

}  // namespace
}  // namespace quoin::desk
