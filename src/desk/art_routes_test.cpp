#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <future>
#include <numbers>

#include "desk/desk_fixture.h"
#include "formats/png/png.h"
#include "media/picture.h"

namespace quoin::desk {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;

constexpr std::uint32_t sand = 0xFFF4E3C1, rust = 0xFFC65B3A, deep = 0xFF20505A;

Bytes png_of(int width, int height, const std::function<std::uint32_t(double, double)>& colour) {
  Raster raster{width, height, {}};
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < width; ++x) raster.pixels.push_back(colour(x + 0.5, y + 0.5));
  }
  return write_png(raster, 96);
}

/// A disc with a square in it, hard-edged.
Bytes badge(int side) {
  return png_of(side, side, [side](double x, double y) {
    const double u = x / side - 0.5, v = y / side - 0.5;
    if (std::abs(u) < 0.12 && std::abs(v) < 0.12) return deep;
    return std::hypot(u, v) < 0.38 ? rust : sand;
  });
}

/// Cards flat on a dark table, 63 x 88 to the pixel, the upper half rust and the lower deep inside
/// a light border.
Bytes table(int cards) {
  return png_of(100 + 103 * (cards - 1), 128, [cards](double x, double y) {
    for (int i = 0; i < cards; ++i) {
      const double u = x - 20 - 103 * i, v = y - 20;
      if (u < 0 || v < 0 || u > 63 || v > 88) continue;
      const bool border = u < 5 || v < 5 || u > 58 || v > 83;
      return border ? 0xFFF8F4EAU : v < 44 ? rust : deep;
    }
    return 0xFF30343AU;
  });
}

std::uint32_t pixel(const Raster& raster, int x, int y) {
  return raster.pixels[std::size_t(y) * std::size_t(raster.width) + std::size_t(x)];
}

int distance(std::uint32_t a, std::uint32_t b) {
  int most = 0;
  for (int shift = 0; shift < 32; shift += 8) {
    most = std::max(most, std::abs(int(a >> shift & 255) - int(b >> shift & 255)));
  }
  return most;
}

/// Two cards that show a picture by a column, and a mark by a plain name.
class DeskArt : public testing::Test, protected DeskOnAFolder {
 protected:
  void SetUp() override {
    put("game.toml",
        "[game]\ntitle = \"Wrack\"\n[card]\nsize = \"poker\"\ncorner = 3\n"
        "[colours]\nsand = \"#f4e3c1\"\n[[layouts]]\nfile = \"layouts/face.toml\"\n");
    put("layouts/face.toml",
        "[[element]]\nid = \"art\"\nkind = \"picture\"\npicture = \"art/{art}\"\n"
        "at = [10, 10]\nsize = [40, 40]\n\n"
        "[[element]]\nid = \"mark\"\nkind = \"picture\"\npicture = \"art/mark.svg\"\n"
        "at = [10, 60]\nsize = [20, 20]\n");
    put("cards.csv", "id,name,art\na,Adder,crab.png\nb,Boar,clam.png\n");
    put("art/crab.png", badge(64));
    put("art/clam.png", badge(40));
    put("art/mark.svg",
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 30 20\">"
        "<rect width=\"30\" height=\"20\" fill=\"#20505a\"/></svg>");
  }

  [[nodiscard]] Json list() const { return json(get("/api/pictures"), "PicturesInfo"); }
  [[nodiscard]] Json info(const std::string& file) const {
    const Json all = list();
    for (const Json& one : all["pictures"]) {
      if (one["file"] == file) return one;
    }
    throw std::runtime_error("no picture " + file);
  }
  [[nodiscard]] Json asked(const std::string& file) const {
    return {{"file", file}, {"stamp", info(file)["stamp"]}};
  }
  [[nodiscard]] Json redraw_of(const std::string& file) const {
    Json body = asked(file);
    body.update(Json{{"closeness", "closest"},
                     {"colours", 0},
                     {"palette", Json::array()},
                     {"instead", Json::array()}});
    return body;
  }
  [[nodiscard]] Reply post(const std::string& what, const Json& body) const {
    return ask("POST", "/api/pictures/" + what, body.dump());
  }
  [[nodiscard]] Json redrawn(const std::string& file) const {
    return json(post("redraw", redraw_of(file)), "Redrawing");
  }
  [[nodiscard]] Json accepted(const Json& id, const Json& n, bool instead) const {
    return json(post("accept", {{"id", id}, {"n", n}, {"instead", instead}}), "Accepted");
  }
  [[nodiscard]] Raster picture(const std::string& target) const {
    const Reply reply = get("/api/pictures/" + target);
    const auto raster = read_png(reply.body);
    if (reply.status != 200 || !raster) throw std::runtime_error(reply.head + reply.body);
    return *raster;
  }
  [[nodiscard]] static Json corners(double x, double y, double width, double height) {
    return Json{{{"x", x}, {"y", y}},
                {{"x", x + width}, {"y", y}},
                {{"x", x + width}, {"y", y + height}},
                {{"x", x}, {"y", y + height}}};
  }
  /// Of `table`'s card, its corners turned on by `turns`.
  [[nodiscard]] static Json card(int index, int turns = 0) {
    const Json all = corners(20 + 103 * index, 20, 63, 88);
    Json turned = Json::array();
    for (std::size_t i = 0; i < 4; ++i) turned.push_back(all[(i + std::size_t(turns)) % 4]);
    return Json{{"corners", turned}};
  }
  [[nodiscard]] Json straighten_of(const std::string& file, const Json& cards) const {
    Json body = asked(file);
    body["cards"] = cards;
    body["shape"] = "63x88";
    return body;
  }
};

TEST_F(DeskArt, lists_every_picture_with_how_it_prints_and_what_to_do) {
  put("art/loose.png", badge(20));
  put("art/broken.png", "no picture");
  open();
  const Json all = list();
  std::vector<std::string> files, states;
  for (const Json& one : all["pictures"]) {
    files.push_back(one["file"]);
    states.push_back(one["state"]);
  }
  EXPECT_THAT(files, ElementsAre("art/clam.png", "art/crab.png", "art/mark.svg", "art/broken.png",
                                 "art/loose.png"));
  EXPECT_THAT(states, ElementsAre("coarse", "coarse", "vectors", "unreadable", "unused"));
  const Json crab = all["pictures"][1];
  EXPECT_NEAR(crab["ppi"].get<double>(), 64 / (40 / 25.4), 1e-6);
  EXPECT_NEAR(crab["printed"]["width"].get<double>(), 40, 1e-6);
  EXPECT_EQ(crab["pieces"], Json({"a"}));
  EXPECT_THAT(crab["words"].get<std::string>(), HasSubstr("Prints at 40 ppi, 300 are wanted"));
  EXPECT_NEAR(crab["sizes"][0]["width"].get<double>(), 64 / 300.0 * 25.4, 1e-6);
  EXPECT_EQ(crab["stamp"].get<std::string>().size(), 16U);
  EXPECT_EQ(all["colours"], Json({{{"name", "sand"}, {"colour", "#f4e3c1"}, {"share", 0}}}));
  EXPECT_THAT(all["brief"][0].get<std::string>(), HasSubstr("2 of 5 pictures print too coarse"));
}

TEST_F(DeskArt, shows_the_pixels_of_a_picture_no_wider_than_asked_for) {
  open();
  const std::string crab = "&stamp=" + info("art/crab.png")["stamp"].get<std::string>();
  const std::string mark = "&stamp=" + info("art/mark.svg")["stamp"].get<std::string>();
  const Raster whole = picture("original.png?file=art/crab.png&w=0" + crab);
  EXPECT_EQ(whole.width, 64);
  EXPECT_EQ(pixel(whole, 32, 32), deep);
  EXPECT_EQ(pixel(whole, 32, 20), rust);
  EXPECT_EQ(picture("original.png?file=art/crab.png&w=500" + crab).width, 64);
  const Raster small = picture("original.png?file=art/crab.png&w=24" + crab);
  EXPECT_EQ(small.width, 24);
  EXPECT_LT(distance(pixel(small, 12, 12), deep), 12);
  const Raster drawn = picture("original.png?file=art/mark.svg&w=90" + mark);
  EXPECT_EQ(drawn.width, 90);
  EXPECT_EQ(drawn.height, 60);
  EXPECT_EQ(pixel(drawn, 45, 30), deep);
}

TEST_F(DeskArt, shows_nothing_that_is_no_picture_of_the_game) {
  put("pack/sheet.png", badge(20));
  put("../outside.png", badge(20));
  open();
  const std::string stamp = info("art/crab.png")["stamp"];
  for (const char* file : {"game.toml", "pack/sheet.png", "../outside.png", "art/../art/crab.png",
                           "/etc/passwd", "art/none.png", ""}) {
    const std::string target = fmt::format("/api/pictures/original.png?file={}&w=0&stamp=", file);
    EXPECT_EQ(get(target + stamp).status, 404) << file;
    Json body = redraw_of("art/crab.png");
    body["file"] = file;
    EXPECT_EQ(post("redraw", body).status, 404) << file;
  }
  const std::string crab = "/api/pictures/original.png?file=art/crab.png&stamp=";
  EXPECT_EQ(get(crab + "0123456789abcdef").status, 409);
  EXPECT_EQ(get(crab).status, 409);
  for (const char* width : {"15", "4097", "-1", "many", "1e9"}) {
    EXPECT_EQ(get(crab + stamp + "&w=" + width).status, 400) << width;
  }
}

TEST_F(DeskArt, redraws_a_picture_and_shows_the_drawing_and_where_it_differs) {
  open();
  const Json made = redrawn("art/crab.png");
  EXPECT_EQ(made["width"], 64);
  EXPECT_EQ(made["colours"].size(), 3U);
  EXPECT_THAT(made["verdict"].get<std::string>(), testing::AnyOf("good", "look"));
  EXPECT_LT(made["mean"].get<double>(), 1);
  double share = 0;
  for (const Json& one : made["colours"]) share += one["share"].get<double>();
  EXPECT_NEAR(share, 1, 0.02);
  const std::string id = made["id"];
  const Reply drawing = get("/api/pictures/redrawn.svg?id=" + id);
  EXPECT_EQ(drawing.status, 200);
  EXPECT_THAT(drawing.head, HasSubstr("image/svg+xml"));
  EXPECT_EQ(drawing.body.size(), made["bytes"].get<std::size_t>());
  EXPECT_THAT(drawing.body, HasSubstr("<svg"));
  // Source: W3C, Content Security Policy Level 3, 6.3.2: no scripts, no forms, an origin of its
  // own where it is opened as a page.
  EXPECT_THAT(drawing.header("Content-Security-Policy"), testing::StartsWith("sandbox;"));
  EXPECT_EQ(picture("difference.png?id=" + id).width, 64);
}

TEST_F(DeskArt, redraws_with_the_colours_that_are_asked_for) {
  open();
  Json body = redraw_of("art/crab.png");
  body["instead"] = Json{{{"from", "#20505a"}, {"to", "#c65b3a"}}};
  const Json merged = json(post("redraw", body), "Redrawing");
  EXPECT_EQ(merged["colours"].size(), 2U) << "the square has become part of the disc";
  body["instead"] = Json::array();
  body["palette"] = {"#ffffff", "#000000"};
  const Json two = json(post("redraw", body), "Redrawing");
  for (const Json& one : two["colours"]) {
    EXPECT_THAT(one["colour"].get<std::string>(), testing::AnyOf("#ffffff", "#000000"));
  }
}

TEST_F(DeskArt, refuses_to_redraw_what_cannot_be) {
  put("art/dot.png", badge(4));
  open();
  const auto status_with = [&](const char* key, const Json& value) {
    Json body = redraw_of("art/crab.png");
    body[key] = value;
    return post("redraw", body).status;
  };
  EXPECT_EQ(status_with("stamp", "0123456789abcdef"), 409);
  EXPECT_EQ(status_with("closeness", "nearly"), 422);
  for (const Json& colours : {Json(65), Json(-1), Json(1.5), Json("six")}) {
    EXPECT_EQ(status_with("colours", colours), 422) << colours;
  }
  EXPECT_EQ(status_with("palette", Json({"sand"})), 422);
  EXPECT_EQ(status_with("palette", Json(std::vector<std::string>(65, "#123456"))), 422);
  EXPECT_EQ(status_with("instead", Json{{{"from", "#123456"}, {"to", "#12345680"}}}), 422);
  EXPECT_EQ(ask("POST", "/api/pictures/redraw", "{").status, 400);
  EXPECT_EQ(ask("POST", "/api/pictures/redraw", "{}").status, 422);
  const Reply vectors = post("redraw", redraw_of("art/mark.svg"));
  EXPECT_EQ(vectors.status, 422);
  EXPECT_THAT(vectors.body, HasSubstr("art/mark.svg is drawn in vectors already"));
  EXPECT_EQ(post("redraw", redraw_of("art/dot.png")).status, 422);
}

TEST_F(DeskArt, takes_a_drawing_in_and_takes_it_back_in_one_step) {
  put("art/sources.csv",
      "file,author,source,licence,changes\r\ncrab.png,Mara,the beach,own,cropped\r\n");
  open();
  const std::string crab = text_of("art/crab.png");
  const std::string sources = text_of("art/sources.csv");
  const Json before = state();
  const Json made = redrawn("art/crab.png");
  const Json taken = accepted(made["id"], Json::array(), true);
  EXPECT_EQ(taken["files"], Json({"art/crab.svg"}));
  EXPECT_EQ(taken["changes"], 2) << "the cell of the card, and the row of the sources";
  EXPECT_THAT(taken["findings"], IsEmpty());
  EXPECT_GT(taken["revision"], before["revision"]);
  EXPECT_EQ(text_of("art/crab.svg").size(), made["bytes"].get<std::size_t>());
  EXPECT_EQ(text_of("cards.csv"), "id,name,art\na,Adder,crab.svg\nb,Boar,clam.png\n");
  EXPECT_EQ(text_of("art/sources.csv"),
            sources + "crab.svg,Mara,the beach,own,cropped; redrawn from crab.png\r\n");
  EXPECT_EQ(text_of("art/crab.png"), crab);
  EXPECT_EQ(info("art/crab.svg")["state"], "vectors");
  EXPECT_EQ(info("art/crab.png")["made"], Json({"art/crab.svg"}));
  EXPECT_EQ(info("art/crab.png")["state"], "unused");
  const Json after = state();
  EXPECT_EQ(after["undo"], "use crab.svg instead of crab.png");
  (void)json(ask("POST", "/api/undo"), "UndoAnswer");
  EXPECT_EQ(text_of("cards.csv"), "id,name,art\na,Adder,crab.png\nb,Boar,clam.png\n");
  EXPECT_EQ(text_of("art/sources.csv"), sources);
  EXPECT_EQ(info("art/crab.png")["pieces"], Json({"a"}));
  EXPECT_FALSE(text_of("art/crab.svg").empty()) << "what was written stays";
  (void)json(ask("POST", "/api/redo"), "UndoAnswer");
  EXPECT_THAT(text_of("cards.csv"), HasSubstr("crab.svg"));
}

TEST_F(DeskArt, puts_a_drawing_beside_its_picture_and_never_over_a_file) {
  put("art/crab.svg", "<svg/>");
  open();
  const Json made = redrawn("art/crab.png");
  const Json beside = accepted(made["id"], Json::array(), false);
  EXPECT_EQ(beside["files"], Json({"art/crab-2.svg"}));
  EXPECT_EQ(beside["changes"], 0);
  EXPECT_EQ(text_of("art/crab.svg"), "<svg/>");
  EXPECT_TRUE(state()["undo"].is_null());
  // Used after all: the file that is there already is the one.
  const Json used = accepted(made["id"], Json({0}), true);
  EXPECT_EQ(used["files"], Json({"art/crab-2.svg"}));
  EXPECT_THAT(text_of("cards.csv"), HasSubstr("a,Adder,crab-2.svg"));
}

TEST_F(DeskArt, says_when_a_pattern_still_makes_the_name_of_the_original) {
  put("layouts/face.toml",
      "[[element]]\nid = \"art\"\nkind = \"picture\"\npicture = \"art/{name}.png\"\n"
      "at = [10, 10]\nsize = [40, 40]\n");
  put("cards.csv", "id,name\na,crab\nb,clam\n");
  open();
  const Json taken = accepted(redrawn("art/crab.png")["id"], Json::array(), true);
  EXPECT_EQ(taken["changes"], 0);
  ASSERT_EQ(taken["findings"].size(), 1U);
  EXPECT_EQ(taken["findings"][0]["message"],
            "art/crab.png was redrawn as art/crab.svg, but the original is still shown");
  EXPECT_THAT(text_of("layouts/face.toml"), HasSubstr("art/{name}.png"));
  EXPECT_FALSE(text_of("art/crab.svg").empty());
}

TEST_F(DeskArt, refuses_to_take_in_what_is_gone_or_what_its_picture_no_longer_is) {
  open();
  const Json made = redrawn("art/crab.png");
  const auto status_of = [&](const Json& id, const Json& n) {
    return post("accept", {{"id", id}, {"n", n}, {"instead", false}}).status;
  };
  EXPECT_EQ(status_of("never-1", Json::array()), 410);
  for (const char* target : {"redrawn.svg?id=never-1", "difference.png?id=never-1",
                             "made.png?id=never-1&n=0&w=0", "redrawn.svg"}) {
    EXPECT_EQ(get(std::string("/api/pictures/") + target).status, 410) << target;
  }
  const std::string id = made["id"];
  EXPECT_EQ(get("/api/pictures/made.png?n=0&w=0&id=" + id).status, 410) << "it is a drawing";
  for (const Json& n : {Json({1}), Json({-1}), Json({0.5})}) EXPECT_EQ(status_of(id, n), 422);
  put("art/crab.png", badge(50));
  (void)state_when([&](const Json&) { return info("art/crab.png")["width"] == 50; });
  EXPECT_EQ(status_of(id, Json::array()), 409);
  EXPECT_FALSE(std::filesystem::exists(folder_ / "art/crab.svg"));
}

TEST_F(DeskArt, finds_a_card_and_makes_it_square_the_way_up_that_is_asked_for) {
  put("art/table.png", table(1));
  open();
  const Json found = json(post("corners", asked("art/table.png")), "FoundCards");
  EXPECT_EQ(found["width"], 100);
  EXPECT_EQ(found["grid"], false);
  ASSERT_EQ(found["cards"].size(), 1U);
  ASSERT_EQ(found["cards"][0]["corners"].size(), 4U);
  const Json made = json(post("straighten", straighten_of("art/table.png", Json::array({card(0)}))),
                         "MadePictures");
  ASSERT_EQ(made["pictures"].size(), 1U);
  EXPECT_NEAR(made["pictures"][0]["width"].get<double>(), 63, 1);
  EXPECT_NEAR(made["pictures"][0]["height"].get<double>(), 88, 1);
  EXPECT_THAT(made["words"][0].get<std::string>(), HasSubstr("At 63 x 88 mm it prints at 25 ppi"));
  const std::string id = made["id"];
  const Raster straight = picture("made.png?n=0&w=0&id=" + id);
  EXPECT_LT(distance(pixel(straight, 31, 22), rust), 4);
  EXPECT_LT(distance(pixel(straight, 31, 66), deep), 4);
  EXPECT_EQ(picture("made.png?n=0&w=30&id=" + id).width, 30);
  EXPECT_EQ(get("/api/pictures/made.png?n=1&w=0&id=" + id).status, 404);
  EXPECT_EQ(get("/api/pictures/made.png?n=0&w=7&id=" + id).status, 400);
  const Json upside_down =
      json(post("straighten", straighten_of("art/table.png", Json::array({card(0, 2)}))),
           "MadePictures");
  const Raster turned = picture("made.png?n=0&w=0&id=" + upside_down["id"].get<std::string>());
  EXPECT_LT(distance(pixel(turned, 31, 22), deep), 4);
  const Json taken = accepted(made["id"], Json::array(), false);
  EXPECT_EQ(taken["files"], Json({"art/table-straight.png"}));
  EXPECT_EQ(info("art/table-straight.png")["kind"], "pixels");
}

TEST_F(DeskArt, splits_a_picture_of_several_cards_and_keeps_their_numbers) {
  put("art/table.png", table(2));
  put("art/sources.csv", "file,licence\ntable.png,own\n");
  open();
  const Json made =
      json(post("straighten", straighten_of("art/table.png", {card(0), card(1)})), "MadePictures");
  ASSERT_EQ(made["pictures"].size(), 2U);
  const Reply both = post("accept", {{"id", made["id"]}, {"n", Json::array()}, {"instead", true}});
  EXPECT_EQ(both.status, 422);
  EXPECT_EQ(accepted(made["id"], Json({1}), false)["files"], Json({"art/table-2.png"}));
  EXPECT_EQ(text_of("art/sources.csv"),
            "file,licence,changes\ntable.png,own,\ntable-2.png,own,straightened from table.png\n");
  EXPECT_EQ(accepted(made["id"], Json::array(), false)["files"],
            Json({"art/table-1.png", "art/table-2.png"}));
}

TEST_F(DeskArt, refuses_corners_and_shapes_that_are_none) {
  put("art/table.png", table(1));
  open();
  const auto status_of = [&](const Json& cards, const Json& shape) {
    Json body = straighten_of("art/table.png", cards);
    body["shape"] = shape;
    return post("straighten", body).status;
  };
  Json three = card(0), crossed = card(0);
  three["corners"].erase(3);
  std::swap(crossed["corners"][0], crossed["corners"][1]);
  EXPECT_EQ(status_of(Json::array(), ""), 422);
  EXPECT_EQ(status_of(Json::array({three}), ""), 422);
  EXPECT_EQ(status_of(Json::array({Json{{"corners", corners(-500, 0, 900, 90)}}}), ""), 422);
  EXPECT_EQ(status_of(Json::array({Json{{"corners", corners(20, 20, 3, 3)}}}), ""), 422);
  for (const char* shape : {"63", "0x88", "63x88x2", "nanx88", "1e9x1e9", "poker"}) {
    EXPECT_EQ(status_of(Json::array({card(0)}), shape), 422) << shape;
  }
  EXPECT_EQ(status_of(Json(std::vector<Json>(101, card(0))), ""), 422);
  const Json whole{{"corners", corners(0, 0, 100, 128)}};
  EXPECT_EQ(status_of(Json(std::vector<Json>(3, whole)), ""), 422) << "over each other";
  EXPECT_EQ(status_of(Json::array({card(0)}), ""), 200);
  EXPECT_EQ(post("corners", asked("art/mark.svg")).status, 422);
}

TEST_F(DeskArt, cuts_a_picture_out_of_its_plain_ground) {
  open();
  Json body = asked("art/crab.png");
  body["reach"] = 0.5;
  const Json made = json(post("cut-out", body), "MadePictures");
  ASSERT_EQ(made["pictures"].size(), 1U);
  const Raster cut = picture("made.png?n=0&w=0&id=" + made["id"].get<std::string>());
  EXPECT_EQ(pixel(cut, 1, 1), 0U);
  EXPECT_EQ(pixel(cut, 32, 20), rust);
  const Json taken = accepted(made["id"], Json({0}), true);
  EXPECT_EQ(taken["files"], Json({"art/crab-cut-out.png"}));
  EXPECT_THAT(text_of("cards.csv"), HasSubstr("a,Adder,crab-cut-out.png"));
  for (const double reach : {-0.1, 1.1}) {
    body["reach"] = reach;
    EXPECT_EQ(post("cut-out", body).status, 422);
  }
}

TEST_F(DeskArt, finds_the_colours_of_pictures_by_their_areas) {
  open();
  const auto palette_of = [&](const Json& files, const Json& most) {
    return json(post("palette", {{"files", files}, {"most", most}}), "PicturesPalette")["colours"];
  };
  const Json crab = palette_of(Json({"art/crab.png"}), 12);
  ASSERT_EQ(crab.size(), 3U) << crab;
  EXPECT_EQ(crab[0]["name"], "sand") << "as the game calls it";
  EXPECT_EQ(crab[0]["colour"], "#f4e3c1");
  EXPECT_EQ(crab[1]["colour"], "#c65b3a");
  EXPECT_EQ(crab[2]["colour"], "#20505a");
  // The disc has a radius of 0.38 and the square a side of 0.24 of the picture's.
  EXPECT_NEAR(crab[0]["share"].get<double>(), 1 - std::numbers::pi * 0.38 * 0.38, 0.01);
  EXPECT_NEAR(crab[2]["share"].get<double>(), 0.24 * 0.24, 0.01);
  EXPECT_EQ(palette_of(Json::array(), 12).size(), 3U) << "all that is shown, alike made one";
  EXPECT_EQ(palette_of(Json::array(), 2).size(), 2U);
  EXPECT_EQ(post("palette", {{"files", {"game.toml"}}, {"most", 2}}).status, 404);
  for (const Json& most : {Json(0), Json(65), Json(1.5)}) {
    EXPECT_EQ(post("palette", {{"files", Json::array()}, {"most", most}}).status, 422);
  }
}

TEST_F(DeskArt, pulls_a_picture_to_the_colours_of_the_game) {
  open();
  const auto pull = [&](double reach) {
    Json body = asked("art/crab.png");
    body["reach"] = reach;
    return post("pull", body);
  };
  const Json edit{{"kind", "value"},
                  {"file", "game.toml"},
                  {"path", {"colours", "coral"}},
                  {"value", "#d06040"}};
  const Json changed{{"base", state()["revision"]}, {"label", "coral"}, {"changes", {edit}}};
  ASSERT_EQ(ask("POST", "/api/edit", changed.dump()).status, 200);
  const Json made = json(pull(10), "MadePictures");
  EXPECT_EQ(made["words"], Json({"39 % of it changed its colour."}));
  const Raster recoloured = picture("made.png?n=0&w=0&id=" + made["id"].get<std::string>());
  EXPECT_EQ(pixel(recoloured, 32, 12), 0xFFD06040U);
  EXPECT_EQ(pixel(recoloured, 2, 2), sand);
  EXPECT_EQ(pixel(recoloured, 32, 32), deep);
  EXPECT_EQ(accepted(made["id"], Json::array(), false)["files"], Json({"art/crab-colours.png"}));
  EXPECT_EQ(json(pull(0.5), "MadePictures")["words"],
            Json({"No colour of it is so near to one of the palette's."}));
  for (const double reach : {0.0, -1.0, 101.0}) EXPECT_EQ(pull(reach).status, 422);
}

TEST_F(DeskArt, redraws_several_at_once) {
  open();
  const Json crab = redraw_of("art/crab.png"), clam = redraw_of("art/clam.png");
  std::vector<std::future<Reply>> replies;
  for (int i = 0; i < 3; ++i) {
    for (const Json* body : {&crab, &clam}) {
      replies.push_back(
          std::async(std::launch::async, [&, body] { return post("redraw", *body); }));
    }
  }
  int done = 0;
  for (std::future<Reply>& one : replies) {
    const Reply reply = one.get();
    EXPECT_TRUE(reply.status == 200 || reply.status == 409) << reply.head << reply.body;
    if (reply.status == 200) ++done;
  }
  EXPECT_GE(done, 2) << "the newest of each picture is never dropped";
}

TEST_F(DeskArt, has_no_pictures_where_there_is_no_game) {
  std::filesystem::remove_all(folder_);
  open();
  EXPECT_THAT(list()["pictures"], IsEmpty());
}

TEST_F(DeskArt, works_on_a_picture_that_was_dropped_in_just_now) {
  open();
  const Reply put_there = ask("POST", "/api/upload?to=art/shell.png", badge(48));
  EXPECT_EQ(json(put_there, "UploadAnswer")["file"], "art/shell.png");
  const Json body{{"file", "art/shell.png"}, {"stamp", "0123456789abcdef"}};
  EXPECT_EQ(post("corners", body).status, 409) << "it is there, though with another stamp";
  EXPECT_EQ(info("art/shell.png")["state"], "unused");
}

}  // namespace
}  // namespace quoin::desk
