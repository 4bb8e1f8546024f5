#include "job/trace/straighten_pictures.h"

#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>

#include "formats/png/png.h"
#include "job/edit/edit_folder.h"

namespace quoin::job {
namespace {

class Unheard : public Watcher {
 public:
  bool at(std::string_view, int, int) override { return true; }
};

/// Cards with a dark border on a light ground, 3 px to a millimetre, their corners square.
Bytes cards_png(int columns) {
  Raster raster{40 + 200 * columns, 310, {}};
  for (int y = 0; y < raster.height; ++y) {
    for (int x = 0; x < raster.width; ++x) {
      const int u = (x - 30) % 200, v = y - 22;
      const bool on = x >= 30 && u < 189 && v >= 0 && v < 264;
      const bool inner = on && u >= 15 && u < 174 && v >= 15 && v < 249;
      const bool disc = inner && std::hypot(u - 94, v - 100) < 50;
      raster.pixels.push_back(disc    ? 0xFFC65B3A
                              : inner ? 0xFFF4E3C1
                              : on    ? 0xFF20505A
                                      : 0xFFE4E8EC);
    }
  }
  return write_png(raster, 96);
}

class StraightenPictures : public ::testing::Test {
 protected:
  StraightPicture one(const std::string& picture, const std::string& out = "") {
    StraightenOrder order;
    order.pictures = {path(picture)};
    order.out = out.empty() ? "" : path(out);
    order.wishes = wishes;
    return straighten_pictures(order, unheard).front();
  }
  std::string path(const std::string& file) { return folder.path(file).string(); }
  bool there(const std::string& file) { return std::filesystem::exists(path(file)); }
  static std::string ids(const Diagnostics& found) {
    std::string text;
    for (const Diagnostic& d : found) text += std::string(facts(d.id).name) + " ";
    return text;
  }
  EditFolder folder{"straighten"};
  Unheard unheard;
  StraightenWishes wishes{{Size{Mm{63}, Mm{88}}, Mm{0}}, {}, {}, {}, {}};
};

TEST_F(StraightenPictures, writes_the_card_beside_its_photograph_and_keeps_that) {
  const Bytes png = cards_png(1);
  folder.write("crab.png", png);
  const StraightPicture made = one("crab.png");
  ASSERT_EQ(made.cards.size(), 1U);
  EXPECT_TRUE(made.cards[0].written);
  const auto card = read_png(folder.read("crab-straight.png"));
  ASSERT_TRUE(card);
  EXPECT_NEAR(card->width, 189, 1);
  EXPECT_NEAR(card->height, 264, 1);
  EXPECT_NEAR(made.cards[0].ppi, 3 * 25.4, 0.5);
  EXPECT_EQ(folder.read("crab.png"), png);
}

TEST_F(StraightenPictures, numbers_the_cards_of_a_grid) {
  folder.write("three.png", cards_png(3));
  const StraightPicture made = one("three.png", "art");
  EXPECT_TRUE(made.grid);
  ASSERT_EQ(made.cards.size(), 3U);
  for (const char* file : {"art/three-1.png", "art/three-2.png", "art/three-3.png"}) {
    EXPECT_TRUE(there(file)) << file;
  }
}

TEST_F(StraightenPictures, never_writes_over_a_file_that_was_not_named) {
  folder.write("crab.png", cards_png(1));
  folder.write("crab-straight.png", "mine");
  const StraightPicture made = one("crab.png");
  EXPECT_FALSE(made.cards[0].written);
  EXPECT_NE(ids(made.found).find("trace.file-there"), std::string::npos);
  EXPECT_EQ(folder.read("crab-straight.png"), "mine");
  EXPECT_TRUE(one("crab.png", "crab-straight.png").cards[0].written);
  const Bytes photo = folder.read("crab.png");
  EXPECT_FALSE(one("crab.png", "crab.png").cards[0].written);
  EXPECT_EQ(folder.read("crab.png"), photo);
}

TEST_F(StraightenPictures, takes_corners_by_hand_and_says_when_they_are_odd) {
  folder.write("crab.png", cards_png(1));
  wishes.corners = {{trace::Spot{30, 22}, {219, 22}, {219, 286}, {30, 286}}};
  const StraightPicture made = one("crab.png");
  EXPECT_EQ(ids(made.found), "");
  EXPECT_EQ(made.cards[0].picture.width, 189);
  EXPECT_EQ(made.cards[0].picture.pixels[0], 0xFF20505AU);
  wishes.corners = {{trace::Spot{30, 22}, {219, 22}, {60, 60}, {30, 286}}};
  const StraightPicture odd = one("crab.png", "odd.png");
  EXPECT_EQ(ids(odd.found), "straighten.corners-odd ");
  EXPECT_FALSE(there("odd.png"));
}

TEST_F(StraightenPictures, takes_all_of_a_picture_without_a_card_and_says_so) {
  Raster plain{60, 50, std::vector<std::uint32_t>(60 * 50, 0xFF336699)};
  folder.write("sea.png", write_png(plain, 96));
  const StraightPicture made = one("sea.png");
  EXPECT_TRUE(made.whole_picture);
  EXPECT_EQ(ids(made.found), "straighten.no-card ");
  EXPECT_EQ(made.found[0].message,
            "no card was found in " + path("sea.png") + "; all of it was taken");
  EXPECT_EQ(read_png(folder.read("sea-straight.png"))->width, 60);
}

TEST_F(StraightenPictures, says_what_is_wrong_with_other_files) {
  folder.write("torn.png", cards_png(1).substr(0, 60));
  folder.write("drawn.svg", "<svg xmlns='http://www.w3.org/2000/svg' width='9' height='9'/>");
  EXPECT_EQ(ids(one("torn.png").found), "picture.damaged ");
  EXPECT_EQ(ids(one("drawn.svg").found), "trace.already-vectors ");
  EXPECT_EQ(ids(one("none.png").found), "picture.missing ");
}

TEST_F(StraightenPictures, refuses_a_picture_of_20000_by_20000_pixels_unread) {
  // The head of such a PNG: signature, IHDR with its checksum, and nothing else.
  static constexpr unsigned char head[] = {
      0x89, 'P',  'N',  'G', '\r', '\n', 0x1A, '\n', 0, 0, 0, 13, 'I',  'H',  'D',  'R', 0,
      0,    0x4E, 0x20, 0,   0,    0x4E, 0x20, 8,    2, 0, 0, 0,  0x6C, 0x12, 0xD1, 0x6E};
  folder.write("vast.png", std::string(reinterpret_cast<const char*>(head), sizeof head));
  EXPECT_EQ(ids(one("vast.png").found), "picture.too-large ");
}

TEST_F(StraightenPictures, shows_the_corners_on_the_photograph) {
  folder.write("crab.png", cards_png(1));
  StraightenOrder order;
  order.pictures = {path("crab.png")};
  order.shown = path("shown.png");
  order.wishes = wishes;
  EXPECT_TRUE(straighten_pictures(order, unheard).front().cards[0].written);
  const auto shown = read_png(folder.read("shown.png"));
  ASSERT_TRUE(shown);
  EXPECT_NE(shown->pixels, read_png(folder.read("crab.png"))->pixels);
}

TEST_F(StraightenPictures, tells_other_programs_all_of_it) {
  folder.write("crab.png", cards_png(1));
  const Bytes report = straighten_report({one("crab.png")});
  for (const char* part : {"\"corners\": [", "\"x_px\": ", "\"grid\": false", "\"written\": true",
                           "\"doubts\": ", "\"whole_picture\": false"}) {
    EXPECT_NE(report.find(part), std::string::npos) << part << "\n" << report;
  }
}

TEST_F(StraightenPictures, cuts_pictures_out_beside_them) {
  folder.write("crab.png", cards_png(1));
  CutOutOrder order;
  order.pictures = {path("crab.png")};
  const CutPicture cut = cut_out_pictures(order, unheard).front();
  EXPECT_TRUE(cut.written);
  const auto made = read_png(folder.read("crab-cut-out.png"));
  ASSERT_TRUE(made);
  EXPECT_EQ(made->pixels[0], 0U);
  EXPECT_EQ(made->pixels[std::size_t(30 * 240 + 40)], 0xFF20505AU);
  EXPECT_EQ(ids(cut_out_pictures(order, unheard).front().found), "trace.file-there ");
  EXPECT_NE(cut_out_report({cut}).find("\"transparent\": 0."), std::string::npos);
}

}  // namespace
}  // namespace quoin::job
