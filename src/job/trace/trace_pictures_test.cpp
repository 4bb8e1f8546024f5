#include "job/trace/trace_pictures.h"

#include <gtest/gtest.h>

#include <atomic>
#include <filesystem>
#include <fstream>

#include "formats/png/png.h"
#include "job/edit/edit_folder.h"
#include "job/trace/picture_files.h"
#include "job/trace/trace_report.h"

namespace quoin::job {
namespace {

class Quiet : public Watcher {
 public:
  bool at(std::string_view, int, int) override { return true; }
};

/// A disc on sand; its colour tells pictures apart.
Bytes disc_png(int side, std::uint32_t colour = 0xFF20505A) {
  Raster raster{side, side, {}};
  for (int y = 0; y < side; ++y) {
    for (int x = 0; x < side; ++x) {
      const bool inside = std::hypot(x - side / 2.0, y - side / 2.0) < side / 3.0;
      raster.pixels.push_back(inside ? colour : 0xFFF4E3C1);
    }
  }
  return write_png(raster, 96);
}

class TracePictures : public ::testing::Test {
 protected:
  TracedPicture one(const std::string& picture, const std::string& out = "") {
    TraceOrder order;
    order.pictures = {path(picture)};
    order.out = out.empty() ? "" : path(out);
    return trace_pictures(order, quiet).front();
  }
  std::string path(const std::string& file) { return folder.path(file).string(); }
  static std::string ids(const TracedPicture& traced) {
    std::string text;
    for (const Diagnostic& d : traced.found) text += std::string(facts(d.id).name) + " ";
    return text;
  }
  EditFolder folder{"trace"};
  Quiet quiet;
};

TEST_F(TracePictures, writes_the_drawing_beside_its_picture_and_keeps_that) {
  const Bytes png = disc_png(80);
  folder.write("crab.png", png);
  const TracedPicture traced = one("crab.png");
  EXPECT_TRUE(traced.written);
  EXPECT_EQ(ids(traced), "");
  EXPECT_EQ(traced.judgement.verdict, trace::Verdict::good);
  EXPECT_TRUE(folder.read("crab.svg").starts_with("<svg "));
  EXPECT_EQ(folder.read("crab.png"), png);
}

TEST_F(TracePictures, leaves_a_file_alone_that_was_not_named) {
  folder.write("crab.png", disc_png(80));
  folder.write("crab.svg", "mine");
  const TracedPicture traced = one("crab.png");
  EXPECT_FALSE(traced.written);
  EXPECT_EQ(ids(traced), "trace.file-there ");
  EXPECT_EQ(folder.read("crab.svg"), "mine");
}

TEST_F(TracePictures, takes_the_place_of_an_earlier_drawing_that_is_named) {
  folder.write("crab.png", disc_png(80));
  folder.write("crab.svg", "mine");
  EXPECT_TRUE(one("crab.png", "crab.svg").written);
  EXPECT_NE(folder.read("crab.svg"), "mine");
}

TEST_F(TracePictures, never_writes_over_its_own_picture) {
  folder.write("crab.svg", disc_png(80));  // a PNG by the wrong name
  const TracedPicture traced = one("crab.svg", "crab.svg");
  EXPECT_FALSE(traced.written);
  EXPECT_EQ(ids(traced), "picture.mislabelled trace.file-there ");
  EXPECT_TRUE(folder.read("crab.svg").starts_with("\x89PNG"));
}

TEST_F(TracePictures, makes_the_folder_and_gives_each_name_to_one_picture) {
  folder.write("a.png", disc_png(60));
  folder.write("layouts/a.png", disc_png(60, 0xFFC65B3A));
  TraceOrder order;
  order.pictures = {path("a.png"), path("layouts/a.png")};
  order.out = path("new/art");
  const auto traced = trace_pictures(order, quiet);
  EXPECT_TRUE(traced[0].written);
  EXPECT_FALSE(traced[1].written);
  EXPECT_EQ(ids(traced[1]), "trace.file-there ");
  EXPECT_NE(folder.read("new/art/a.svg").find("#20505a"), std::string::npos);
}

TEST_F(TracePictures, says_what_is_wrong_with_broken_and_other_files) {
  folder.write("torn.png", disc_png(80).substr(0, 60));
  folder.write("words.png", "no picture");
  folder.write("drawn.svg", "<svg xmlns='http://www.w3.org/2000/svg' width='9' height='9'/>");
  EXPECT_EQ(ids(one("torn.png")), "picture.damaged ");
  EXPECT_EQ(ids(one("words.png")), "picture.not-a-picture ");
  EXPECT_EQ(ids(one("drawn.svg")), "trace.already-vectors ");
  EXPECT_EQ(ids(one("none.png")), "picture.missing ");
  EXPECT_FALSE(std::filesystem::exists(path("torn.svg")));
}

TEST_F(TracePictures, refuses_a_picture_of_20000_by_20000_pixels_unread) {
  // The head of such a PNG: signature, IHDR with its checksum, and nothing else.
  static constexpr unsigned char head[] = {
      0x89, 'P',  'N',  'G', '\r', '\n', 0x1A, '\n', 0, 0, 0, 13, 'I',  'H',  'D',  'R', 0,
      0,    0x4E, 0x20, 0,   0,    0x4E, 0x20, 8,    2, 0, 0, 0,  0x6C, 0x12, 0xD1, 0x6E};
  folder.write("vast.png", std::string(reinterpret_cast<const char*>(head), sizeof head));
  const TracedPicture traced = one("vast.png");
  EXPECT_FALSE(traced.written);
  EXPECT_EQ(ids(traced), "picture.too-large ");
}

TEST_F(TracePictures, tells_of_pictures_with_nothing_to_follow_and_of_animations) {
  const auto said_of = [&](const std::string& name, const Bytes& bytes) {
    folder.write(name, bytes);
    std::vector<std::string> names;
    for (const Diagnostic& found : one(name).found) names.emplace_back(facts(found.id).name);
    return names;
  };
  using Ids = std::vector<std::string>;
  EXPECT_EQ(said_of("one.png", write_png(Raster{1, 1, {0xFFC65B3A}}, 96)), Ids{"trace.too-small"});
  EXPECT_EQ(said_of("clear.png", write_png(Raster{40, 40, std::vector<std::uint32_t>(1600)}, 96)),
            Ids{"trace.nothing-drawn"});
  const Raster plain{40, 40, std::vector<std::uint32_t>(1600, 0xFFC65B3A)};
  EXPECT_EQ(said_of("plain.png", write_png(plain, 96)), Ids{"trace.one-colour"});
  EXPECT_EQ(said_of("moving.gif", "GIF89a\x28"), Ids{"picture.not-a-picture"});
  // An APNG is a PNG with an acTL chunk before its pixels (PNG, third edition, 11.3.6.1): length,
  // name, two frames, played once, CRC-32 of name and numbers.
  Bytes frames = disc_png(40);
  constexpr unsigned char actl[] = {0, 0, 0, 8, 'a', 'c', 'T',  'L',  0,    0,
                                    0, 2, 0, 0, 0,   1,   0x84, 0x8A, 0xA3, 0xE6};
  frames.insert(33, reinterpret_cast<const char*>(actl), sizeof actl);
  const Ids of_frames = said_of("moving.png", frames);
  EXPECT_NE(std::find(of_frames.begin(), of_frames.end(), "picture.only-the-first"),
            of_frames.end());
}

TEST_F(TracePictures, writes_a_picture_of_the_difference) {
  folder.write("crab.png", disc_png(80));
  TraceOrder order;
  order.pictures = {path("crab.png")};
  order.difference = path("difference.png");
  EXPECT_TRUE(trace_pictures(order, quiet).front().written);
  const auto difference = read_png(folder.read("difference.png"));
  ASSERT_TRUE(difference);
  EXPECT_EQ(difference->width, 80);
}

TEST_F(TracePictures, stops_when_told_to) {
  class Stop : public Watcher {
   public:
    bool at(std::string_view, int, int) override { return false; }
  } stop;
  TraceOrder order;
  for (int i = 0; i < 12; ++i) {
    folder.write(std::to_string(i) + ".png", disc_png(60));
    order.pictures.push_back(path(std::to_string(i) + ".png"));
  }
  int written = 0;
  for (const TracedPicture& traced : trace_pictures(order, stop)) written += traced.written;
  EXPECT_LT(written, 12);
}

TEST_F(TracePictures, tells_other_programs_all_of_it) {
  folder.write("crab.png", disc_png(80));
  const Bytes report = trace_report({one("crab.png")});
  for (const char* part : {"\"verdict\": \"good\"", "\"ciede2000_mean\"", "\"ssim\"", "\"nodes\"",
                           "\"layers\": [\n        \"yellow\",\n        \"dark teal\"\n      ]",
                           "\"written\": true"}) {
    EXPECT_NE(report.find(part), std::string::npos) << part << "\n" << report;
  }
}

TEST(OnAllCores, does_each_piece_of_work_once) {
  std::vector<std::atomic<int>> times(100);
  on_all_cores(100, [&](int i) { ++times[std::size_t(i)]; });
  for (const auto& each : times) EXPECT_EQ(each.load(), 1);
}

}  // namespace
}  // namespace quoin::job
