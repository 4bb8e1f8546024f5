#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>

#include "desk/desk_fixture.h"
#include "formats/png/png.h"
#include "media/picture.h"
#include "press/scan/simulated_scan.h"

namespace quoin::desk {
namespace {
namespace fs = std::filesystem;
using testing::ElementsAre;
using testing::HasSubstr;

class DeskPrinter : public testing::Test, protected DeskOnAFolder {
 protected:
  DeskPrinter() { printers_folder_ = (root_ / "machine/printers").string(); }

  [[nodiscard]] Json printers() const { return json(get("/api/printers"), "Printers"); }
  [[nodiscard]] Reply post(const std::string& path, const Json& body) const {
    return ask("POST", path, body.dump());
  }
  [[nodiscard]] std::string on_machine(const std::string& name) const {
    std::ifstream in(fs::path(printers_folder_) / name, std::ios::binary);
    std::ostringstream text;
    text << in.rdbuf();
    return text.str();
  }
  void put_on_machine(const std::string& name, const std::string& text) const {
    fs::create_directories(printers_folder_);
    std::ofstream(fs::path(printers_folder_) / name, std::ios::binary) << text;
  }

  /// Takes a picture; its name for measuring.
  [[nodiscard]] std::string taken(const Bytes& picture, const std::string& name) const {
    const Reply reply = ask("POST", "/api/printer/scan?name=" + name, picture);
    return json(reply, "ScanTaken")["scan"].get<std::string>();
  }
};

const Json about{{"name", "Laser in the study"},
                 {"tray", "bypass"},
                 {"stock", "card 250"},
                 {"paper", "A4"},
                 {"held", "upright"},
                 {"backs", "printer"},
                 {"flip", "long-edge"}};

/// A sheet whose back lies 0.15 mm to the right and 0.1 mm up everywhere.
Json even_sheet() {
  return {{"letter", "E"},
          {"scales", {"3", "-2", "+3", "-2", "3", "-2", "3", "-2"}},
          {"bar150", "149,7 mm"},
          {"bar200", "7 7/8 in"}};
}

Json readings(Json sheets) { return {{"about", about}, {"sheets", std::move(sheets)}}; }

Json scans(Json sheets) { return {{"about", about}, {"sheets", std::move(sheets)}}; }

Json pair_of(const std::string& front, const std::string& back) {
  return {{"front", front}, {"back", back}, {"bar150", ""}, {"bar200", ""}};
}

Bytes png_of(const press::GreyImage& image) {
  Raster raster{image.width, image.height, {}};
  for (const std::uint8_t grey : image.pixels)
    raster.pixels.push_back(0xFF000000U | grey * 0x10101U);
  return write_png(raster, 120);
}

/// A sheet that was printed, pricked and scanned, as the unit tests of the scans have it.
const press::SimulatedPair& scanned() {
  static const press::SheetLayout layout = press::sheet_layout({210_mm, 297_mm});
  static const press::SimulatedPair pair = [] {
    press::SimulatedFaults faults;
    faults.ppi = 120;
    faults.dust = 20;
    return press::simulated_pair(layout, faults, 21, game::FlipEdge::long_edge);
  }();
  return pair;
}

/// "sheet 2, scale 3: press.reading-missing" of each finding.
std::vector<std::string> places_of(const Json& refused) {
  std::vector<std::string> all;
  for (const Json& finding : refused["findings"]) {
    all.push_back(fmt::format("{}, {}: {}", finding["piece"].get<std::string>(),
                              finding["element"].get<std::string>(),
                              finding["id"].get<std::string>()));
  }
  return all;
}

TEST_F(DeskPrinter, says_how_the_game_is_printed_and_that_no_printer_is_known) {
  small_game();
  open();
  const Json now = printers();
  EXPECT_EQ(now["uses"], "");
  EXPECT_EQ(now["kind"], "laser");
  EXPECT_EQ(now["paper"], "A4");
  EXPECT_EQ(now["held"], "upright");
  EXPECT_EQ(now["machine"], true);
  EXPECT_TRUE(now["printers"].empty());
  EXPECT_THAT(now["papers"].dump(), HasSubstr("\"Letter\""));
  EXPECT_EQ(now["papers"].dump().find("\"A5\""), std::string::npos);
}

TEST_F(DeskPrinter, hands_out_the_measuring_sheet_and_where_its_marks_are) {
  small_game();
  open();
  const Reply pdf =
      get("/api/printer/sheet.pdf?paper=Letter&held=upright&flip=long-edge&backs=printer&sheets=3");
  EXPECT_EQ(pdf.status, 200);
  EXPECT_TRUE(pdf.body.starts_with("%PDF-"));
  EXPECT_EQ(pdf.header("Content-Disposition"), "inline; filename=\"measuring-sheet-Letter.pdf\"");
  const Json sheet =
      json(get("/api/printer/sheet?paper=A4&held=sideways&flip=long-edge"), "MeasuringSheet");
  EXPECT_EQ(sheet["width"], 297.0);
  EXPECT_EQ(sheet["scales"].size(), 8U);
  EXPECT_EQ(sheet["behind"][0]["letter"], "E");
  EXPECT_EQ(sheet["bars"][0]["length"].get<double>() + sheet["bars"][1]["length"].get<double>(),
            350);
  for (const char* query :
       {"paper=A5&held=upright&flip=long-edge&backs=printer&sheets=3",
        "paper=nonsense&held=upright&flip=long-edge&backs=printer&sheets=3",
        "paper=A4&held=upright&flip=long-edge&backs=printer&sheets=0",
        "paper=A4&held=upright&flip=long-edge&backs=printer&sheets=1e9", "paper=A4&held=upright"}) {
    const Reply refused = get(std::string("/api/printer/sheet.pdf?") + query);
    EXPECT_EQ(refused.status, 422) << query;
    (void)json(refused, "Problem");
  }
}

TEST_F(DeskPrinter, measures_by_eye_what_people_write) {
  small_game();
  open();
  Json other = even_sheet();
  other["scales"] = {"5", "-2", "5", "-2", "5", "-2", "5", "-2"};
  other["letter"] = "";
  other["bar150"] = "14.97cm";
  const Json found =
      json(post("/api/printer/read", readings({even_sheet(), other})), "MeasuredPrinter");
  EXPECT_EQ(found["printer"], "laser-in-the-study");
  EXPECT_EQ(found["words"][0],
            "backs lie 0.20 mm to the right and 0.10 mm up of their fronts, turned 0.000° "
            "clockwise");
  EXPECT_THAT(found["words"][4], HasSubstr("single sheets stray by 0.07 mm across"));
  EXPECT_THAT(found["sheets"], ElementsAre(HasSubstr("by eye, known to ±0."), HasSubstr("±0.")));
  EXPECT_TRUE(found["notes"].empty()) << found["notes"];
  EXPECT_TRUE(found["differs"].empty()) << "the game is printed that way";
  const Json& drawing = found["drawing"];
  EXPECT_EQ(drawing["places"].size(), 20U);
  EXPECT_NEAR(drawing["places"][0]["off"][0].get<double>(), 0.2, 1e-6);
  EXPECT_NEAR(drawing["places"][0]["sheets"][1][0].get<double>(), 0.25, 1e-6);
  ASSERT_EQ(drawing["meetings"].size(), 3U);
  EXPECT_EQ(drawing["meetings"][2]["sheet"], 2);
  // The second sheet lies 0.05 mm farther to the right than the mean: that is what stays, times the
  // front's size, 149.7 of 150 mm.
  const Json& after = drawing["meetings"][2]["backAfter"];
  EXPECT_NEAR(after[0].get<double>(), -1, 1e-6);
  EXPECT_NEAR(after[4].get<double>() - 210, 0.05 * 149.7 / 150, 1e-4);
}

TEST_F(DeskPrinter, shows_every_refused_reading_at_its_field_with_a_remedy) {
  small_game();
  open();
  Json wrong = even_sheet();
  wrong["letter"] = "";
  wrong["scales"][0] = "";
  wrong["scales"][1] = "three";
  wrong["scales"][2] = "12:-9";
  wrong["bar150"] = "5.9";
  wrong["bar200"] = "long";
  const Reply reply = post("/api/printer/read", readings({wrong, even_sheet()}));
  EXPECT_EQ(reply.status, 422);
  const Json refused = json(reply, "FindingAnswer");
  EXPECT_THAT(places_of(refused), ElementsAre("sheet 1, letter: press.reading-missing",
                                              "sheet 1, scale 1: press.reading-missing",
                                              "sheet 1, scale 2: press.reading-not-understood",
                                              "sheet 1, scale 3: press.reading-out-of-range",
                                              "sheet 1, bar 150: press.reading-out-of-range",
                                              "sheet 1, bar 200: press.reading-not-understood"));
  for (const Json& finding : refused["findings"]) EXPECT_FALSE(finding["hints"].empty());
  EXPECT_EQ(refused["findings"][4]["hints"][0], "for inches write 5.9in");
}

TEST_F(DeskPrinter, refuses_readings_that_contradict_each_other_or_the_flip) {
  small_game();
  open();
  Json bent = even_sheet();
  bent["scales"][4] = "4:3";
  EXPECT_THAT(places_of(json(post("/api/printer/read", readings({bent})), "FindingAnswer")),
              ElementsAre("sheet 1, scales across: press.readings-disagree"));
  Json turned = even_sheet();
  turned["letter"] = "g";
  EXPECT_THAT(places_of(json(post("/api/printer/read", readings({turned})), "FindingAnswer")),
              ElementsAre("sheet 1, letter: press.turned-otherwise"));
}

TEST_F(DeskPrinter, takes_no_readings_that_its_table_does_not_know) {
  small_game();
  open();
  Json short_of_scales = even_sheet();
  short_of_scales["scales"] = {"1", "2"};
  Json other_paper = readings({even_sheet()});
  other_paper["about"]["paper"] = "A6";
  Json long_name = readings({even_sheet()});
  long_name["about"]["name"] = std::string(300, 'a');
  Json no_table = readings({even_sheet()});
  no_table["about"]["folder"] = "/etc";
  Json many = Json::array();
  for (int i = 0; i < 21; ++i) many.push_back(even_sheet());
  for (const Json& body : {readings({short_of_scales}), readings(Json::array()), readings(many),
                           other_paper, long_name, no_table}) {
    const Reply reply = post("/api/printer/read", body);
    EXPECT_EQ(reply.status, 422) << body.dump();
    (void)json(reply, "Problem");
  }
  EXPECT_EQ(ask("POST", "/api/printer/read", "nonsense").status, 400);
  EXPECT_EQ(get("/api/printer/read").status, 404);
}

TEST_F(DeskPrinter, measures_by_pictures_of_both_sides) {
  small_game();
  open();
  const std::string front = taken(png_of(scanned().front), "front.png");
  const std::string back = taken(png_of(scanned().back), "front.png");
  Json sheet = pair_of(front, back);
  const Json found =
      json(post("/api/printer/scans", scans(Json::array({sheet}))), "MeasuredPrinter");
  EXPECT_THAT(found["sheets"], ElementsAre(HasSubstr("by 6 pinholes, known to ±0.")));
  EXPECT_THAT(found["notes"], ElementsAre(HasSubstr("the size of fronts was not measured")));
  // The simulation knows where the back lies behind the front.
  for (const Json& place : found["drawing"]["places"]) {
    const Point at{Mm{place["x"].get<double>()}, Mm{place["y"].get<double>()}};
    const Vec truth = scanned().truth(at) - at;
    EXPECT_NEAR(place["off"][0].get<double>(), truth.x.value, 0.15);
    EXPECT_NEAR(place["off"][1].get<double>(), truth.y.value, 0.15);
  }
}

TEST_F(DeskPrinter, says_of_every_picture_what_is_wrong_with_it) {
  small_game();
  open();
  const std::string front = taken(png_of(scanned().front), "front.png");
  const std::string back = taken(png_of(scanned().back), "back.png");
  const std::string other =
      taken(write_png(Raster{400, 600, std::vector<std::uint32_t>(240'000, 0xFF808080U)}, 100),
            "holiday.png");
  const std::string svg =
      "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"4\" height=\"4\"><rect width=\"4\" "
      "height=\"4\"/></svg>";
  const std::string drawn = taken(svg, "drawn.svg");
  const Reply reply =
      post("/api/printer/scans",
           scans({pair_of(back, front), pair_of(front, other), pair_of(drawn, back)}));
  EXPECT_EQ(reply.status, 422);
  const Json refused = json(reply, "FindingAnswer");
  EXPECT_THAT(places_of(refused), testing::IsSupersetOf({
                                      std::string("sheet 1, front: press.scan-wrong-side"),
                                      std::string("sheet 2, back: press.scan-without-marks"),
                                      std::string("sheet 3, front: press.scan-without-marks"),
                                  }));
  EXPECT_EQ(reply.body.find("quoin-scans"), std::string::npos) << "no path of the machine is told";
  for (const Json& finding : refused["findings"]) EXPECT_EQ(finding["place"], nullptr);
}

TEST_F(DeskPrinter, takes_pictures_alone_and_only_those_that_came_from_the_page) {
  small_game();
  open();
  EXPECT_EQ(ask("POST", "/api/printer/scan?name=a.png", "#!/bin/sh\necho\n").status, 415);
  EXPECT_EQ(ask("POST", "/api/printer/scan?name=a.png", "").status, 415);
  put("front.png", png_of(scanned().front));
  for (const std::string& way : {std::string("front.png"), (folder_ / "front.png").string(),
                                 std::string("../front.png"), std::string()}) {
    const Reply reply = post("/api/printer/scans", scans(Json::array({pair_of(way, way)})));
    EXPECT_EQ(reply.status, 410) << way;
    EXPECT_EQ(json(reply, "Problem")["message"],
              "the picture of the front of sheet 1 is here no more");
  }
}

TEST_F(DeskPrinter, keeps_the_newest_pictures_only_and_none_when_it_ends) {
  small_game();
  open();
  const Bytes small = write_png(Raster{4, 4, std::vector<std::uint32_t>(16, 0xFF000000U)}, 100);
  const std::string first = taken(small, "a.png");
  std::string last;
  for (int i = 0; i < 24; ++i) last = taken(small, "a.png");
  EXPECT_EQ(post("/api/printer/scans", scans(Json::array({pair_of(last, first)}))).status, 410);
  EXPECT_EQ(post("/api/printer/scans", scans(Json::array({pair_of(last, last)}))).status, 422);
}

TEST_F(DeskPrinter, keeps_a_printer_with_the_game_and_the_game_names_it) {
  small_game();
  open();
  const Json found = json(post("/api/printer/read", readings({even_sheet()})), "MeasuredPrinter");
  Json keep{{"id", found["id"]}, {"name", "Ink & Jet"}, {"where", "game"}, {"replace", false}};
  const Json kept = json(post("/api/printer/keep", keep), "PrinterKept");
  EXPECT_EQ(kept["printer"], "ink-jet");
  EXPECT_EQ(kept["file"], "printers/ink-jet.toml");
  EXPECT_THAT(text_of("printers/ink-jet.toml"),
              HasSubstr("name = \"Ink & Jet\"\ntray = \"bypass\""));
  EXPECT_FALSE(fs::exists(printers_folder_));
  const Reply again = post("/api/printer/keep", keep);
  EXPECT_EQ(again.status, 409);
  EXPECT_EQ(json(again, "Problem")["message"], "a printer ink-jet is kept there already");
  keep["replace"] = true;
  EXPECT_EQ(post("/api/printer/keep", keep).status, 200);

  const Json edit{{"base", kept["revision"]},
                  {"label", "print for Ink & Jet"},
                  {"changes",
                   {{{"kind", "value"},
                     {"file", "game.toml"},
                     {"path", {"printer", "profile"}},
                     {"value", "ink-jet"}}}}};
  ASSERT_EQ(post("/api/edit", edit).status, 200);
  EXPECT_THAT(text_of("game.toml"), HasSubstr("[printer]\nprofile = \"ink-jet\""));
  const Json now = printers();
  EXPECT_EQ(now["uses"], "ink-jet");
  EXPECT_EQ(now["printers"][0]["where"], "game");
  EXPECT_EQ(now["printers"][0]["how"], "eye");
  EXPECT_THAT(now["printers"][0]["words"][0], HasSubstr("0.15 mm to the right and 0.10 mm up"));
  EXPECT_EQ(now["printers"][0]["measured"], now["today"]);
  EXPECT_THAT(checked_state()["sheets"]["choices"].dump(), HasSubstr("printer: ink-jet"));
  EXPECT_EQ(ask("POST", "/api/undo", "{}").status, 200);
  EXPECT_EQ(text_of("game.toml").find("ink-jet"), std::string::npos);
}

TEST_F(DeskPrinter, keeps_a_printer_with_the_machine_and_prints_anew_what_uses_it) {
  small_game();
  put("game.toml", text_of("game.toml") + "[printer]\nprofile = \"laser-in-the-study\"\n");
  open();
  EXPECT_GT(checked_state()["errors"], 0) << "nobody has measured it";
  const Json found = json(post("/api/printer/read", readings({even_sheet()})), "MeasuredPrinter");
  const Json keep{{"id", found["id"]},
                  {"name", "Laser in the study"},
                  {"where", "machine"},
                  {"replace", false}};
  EXPECT_EQ(json(post("/api/printer/keep", keep), "PrinterKept")["printer"], "laser-in-the-study");
  EXPECT_THAT(on_machine("laser-in-the-study.toml"), HasSubstr("how = \"eye\""));
  EXPECT_FALSE(fs::exists(folder_ / "printers"));
  EXPECT_EQ(checked_state()["errors"], 0);
}

TEST_F(DeskPrinter, lists_the_printers_of_both_shelves_and_what_is_wrong_with_them) {
  small_game();
  put("printers/study.toml", "name = \"Study\"\nmeasured = 2026-03-01\npaper = \"A4\"\n");
  put("printers/torn.toml", "name = \n");
  put_on_machine("study.toml", "name = \"Another study\"\npaper = \"A4\"\n");
  put_on_machine("shop.toml", "name = \"Shop\"\npaper = \"A3\"\nflip = \"short-edge\"\n");
  open();
  const Json all = printers()["printers"];
  ASSERT_EQ(all.size(), 4U);
  EXPECT_EQ(all[0]["name"], "Study");
  EXPECT_EQ(all[0]["measured"], "2026-03-01");
  EXPECT_TRUE(all[0]["differs"].empty());
  EXPECT_EQ(all[1]["printer"], "torn");
  EXPECT_EQ(all[1]["broken"][0]["place"]["file"], "printers/torn.toml");
  EXPECT_EQ(all[1]["drawing"], nullptr);
  EXPECT_EQ(all[2]["where"], "machine");
  EXPECT_EQ(all[2]["differs"].size(), 2U) << "other paper, another edge";
  EXPECT_EQ(all[2]["differs"][0]["id"], "press.measured-otherwise");
  EXPECT_EQ(all[3]["hidden"], true) << "the game's own goes first";
  EXPECT_EQ(all[0]["hidden"], false);
}

TEST_F(DeskPrinter, keeps_names_of_any_letters_as_they_are) {
  small_game();
  open();
  const std::string odd = "\"Größe\" \\ 5\u2032 \t\n\u0001\u007f # '''";
  Json asked = readings({even_sheet()});
  asked["about"]["tray"] = odd;
  const Json found = json(post("/api/printer/read", asked), "MeasuredPrinter");
  const Json keep{{"id", found["id"]}, {"name", odd}, {"where", "game"}, {"replace", false}};
  const Reply reply = post("/api/printer/keep", keep);
  ASSERT_EQ(reply.status, 200) << reply.body;
  const Json known = printers()["printers"][0];
  EXPECT_EQ(known["name"], odd);
  EXPECT_EQ(known["tray"], odd);
}

TEST_F(DeskPrinter, keeps_no_printer_through_a_link_out_of_the_game_nor_under_a_way_elsewhere) {
  small_game();
  fs::create_directories(root_ / "elsewhere");
  fs::create_directory_symlink(root_ / "elsewhere", folder_ / "printers");
  open();
  const Json found = json(post("/api/printer/read", readings({even_sheet()})), "MeasuredPrinter");
  Json keep{{"id", found["id"]}, {"name", "../../odd"}, {"where", "game"}, {"replace", true}};
  EXPECT_EQ(post("/api/printer/keep", keep).status, 403);
  EXPECT_TRUE(fs::is_empty(root_ / "elsewhere"));
  keep["where"] = "machine";
  EXPECT_EQ(json(post("/api/printer/keep", keep), "PrinterKept")["printer"], "odd");
  EXPECT_NE(on_machine("odd.toml"), "");
  keep["name"] = "";
  EXPECT_EQ(post("/api/printer/keep", keep).status, 422);
  keep["id"] = "0123456789abcdef";
  EXPECT_EQ(post("/api/printer/keep", keep).status, 410);
}

}  // namespace
}  // namespace quoin::desk
