#include <gtest/gtest.h>

#include <array>

#include "job/job.h"
#include "programs.h"
#include "tables.h"

namespace quoin::outside {
namespace {

/// The ink of a page: cyan, magenta, yellow, black, each as a part of it.
using Plates = std::array<double, 4>;

/// Half a point of a hundred.
constexpr double near_enough = 0.005;

class GoingOn : public job::Watcher {
 public:
  bool at(std::string_view, int, int) override { return true; }
};

/// What Ghostscript counts on each page of a PDF, with one of its two counting devices: `ink_cov`
/// adds up how much of each ink there is (its lines are in hundredths), `inkcov` counts the pixels
/// that have any of it (its lines are in parts of 1).
///
/// The pages are in RGB. Left alone, Ghostscript makes plates of it through a CMYK profile of its
/// own, with black for dark tones only: 5 to 20 points from any rule that can be written down. So
/// it is told to use the plain rule of ISO 32000-1, 10.3.4, which is also that of
/// `pieces::measure_face`: colours without profiles (`UseFastColor`), black generation and
/// undercolour removal both the identity. And it is told to fill the pixels whose middle a shape
/// covers (`setfilladjust2`), not all that it touches: fine light lines on a dark back lose 3
/// points of black otherwise. What is compared, then, is the ink of two renderers under one rule,
/// and not what a press will lay down.
std::vector<Plates> counted_by_ghostscript(const std::string& device, const std::string& pdf) {
  const Answer answer =
      run({"gs", "-q", "-dNOPAUSE", "-dBATCH", "-dSAFER", "-sDEVICE=" + device, "-r300",
           "-dUseFastColor=true", "-o", "-", "-c",
           "{} setblackgeneration {} setundercolorremoval 0 0 .setfilladjust2", "-f", pdf});
  EXPECT_EQ(answer.exit_code, 0) << answer.words;
  const double whole = device == "ink_cov" ? 100 : 1;
  std::vector<Plates> pages;
  for (const std::string& line : lines_of(answer.words)) {
    const std::vector<std::string> words = words_of(line);
    if (words.size() < 5 || words[4] != "CMYK") continue;
    Plates plates{};
    for (std::size_t i = 0; i < plates.size(); ++i) plates[i] = number(words[i]) / whole;
    pages.push_back(plates);
  }
  return pages;
}

/// A game's shop file, a face a page with its bleed: front, back, front, back.
class InkOnFaces : public testing::Test {
 protected:
  void make(const World& world, const std::vector<std::string>& only) {
    job::Wishes wishes;
    wishes.out = folder_.path("pack");
    wishes.parts = {job::Part::shop};
    wishes.only = only;
    GoingOn watcher;
    outcome_ = job::make(world, wishes, watcher);
    ASSERT_TRUE(outcome_.published);
    ASSERT_TRUE(outcome_.making);
  }
  [[nodiscard]] std::string pdf() const { return folder_.path("pack/shop/cards.pdf"); }
  [[nodiscard]] const Plates& measured(std::size_t face) const {
    return outcome_.making->faces[face].measure.ink;
  }

  Folder folder_;
  job::Outcome outcome_;
};

void expect_near(const Plates& ours, const Plates& theirs, const std::string& piece) {
  constexpr const char* names[] = {"cyan", "magenta", "yellow", "black"};
  for (std::size_t plate = 0; plate < ours.size(); ++plate) {
    EXPECT_NEAR(ours[plate], theirs[plate], near_enough) << piece << ", " << names[plate];
  }
}

TEST_F(InkOnFaces, is_what_ghostscript_counts_on_the_demo_game_by_the_same_rule) {
  make(*real_world(std::string(QUOIN_SOURCE_DIR) + "/examples/tidewrack"),
       {"shell-1", "bird-3", "storm", "rule-count"});
  const std::vector<Plates> pages = counted_by_ghostscript("ink_cov", pdf());
  ASSERT_EQ(pages.size(), 8U);
  ASSERT_EQ(outcome_.making->faces.size(), 5U);
  for (std::size_t card = 0; card < 4; ++card) {
    expect_near(measured(card), pages[card * 2], outcome_.making->faces[card].piece);
    expect_near(measured(4), pages[card * 2 + 1], "the back");
  }
}

/// Where each ink is there whole or not at all, pixels with ink are the amount of ink: the page on
/// which `inkcov` itself can be compared, and which can be worked out by hand.
TEST_F(InkOnFaces, is_the_area_that_each_solid_ink_covers) {
  MemoryWorld world;
  world.put("game.toml",
            "[game]\ntitle = \"Inks\"\n[card]\nsize = \"60x90\"\nbleed = 0\n[decks.main]\n"
            "back = \"layouts/back.toml\"\n");
  world.put("cards.csv", "id,name\na,A\n");
  const auto patch = [](const std::string& id, const std::string& at, const std::string& size,
                        const std::string& colour) {
    return "[[element]]\nid = \"" + id + "\"\nkind = \"shape\"\nat = [" + at + "]\nsize = [" +
           size + "]\nfill = \"" + colour + "\"\n";
  };
  world.put("layouts/face.toml", patch("cyan", "0, 0", "60, 30", "#00ffff") +
                                     patch("magenta", "0, 30", "30, 45", "#ff00ff") +
                                     patch("yellow", "30, 30", "30, 15", "#ffff00") +
                                     patch("black", "30, 45", "15, 30", "#000000") +
                                     patch("red", "0, 75", "60, 15", "#ff0000"));
  world.put("layouts/back.toml", patch("all", "0, 0", "60, 90", "#0000ff"));
  make(world, {"a"});
  const std::vector<Plates> pages = counted_by_ghostscript("inkcov", pdf());
  ASSERT_EQ(pages.size(), 2U);
  constexpr double card = 60 * 90;
  // Red is magenta and yellow over each other; blue is cyan and magenta.
  const Plates by_hand{60 * 30 / card, (30 * 45 + 60 * 15) / card, (30 * 15 + 60 * 15) / card,
                       15 * 30 / card};
  expect_near(measured(0), by_hand, "by hand");
  expect_near(measured(0), pages[0], "the face");
  expect_near(measured(1), {1, 1, 0, 0}, "by hand, the back");
  expect_near(measured(1), pages[1], "the back");
}

}  // namespace
}  // namespace quoin::outside
