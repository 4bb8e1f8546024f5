#include <gmock/gmock.h>

#include "press/scan/find_dots.h"
#include "press/scan/measure_scans.h"
#include "press/scan/simulated_scan.h"

namespace quoin::press {
namespace {

using testing::ElementsAre;

const Size a4_paper{210_mm, 297_mm}, letter_paper{215.9_mm, 279.4_mm};
const std::vector<Size> papers{a4_paper, turned(a4_paper), letter_paper, turned(letter_paper)};
const FileName front_file("front.png"), back_file("back.png");
constexpr auto over_long = game::FlipEdge::long_edge;
constexpr auto over_short = game::FlipEdge::short_edge;

/// Quick to make: few pixels, little dust. tests/bench/register.cpp has them all.
SimulatedFaults quick() {
  SimulatedFaults faults;
  faults.ppi = 120;
  faults.dust = 20;
  return faults;
}

/// One pair for all tests that change pictures.
const SimulatedPair& usual_pair() {
  static const SheetLayout layout = sheet_layout(a4_paper);
  static const SimulatedPair pair = simulated_pair(layout, quick(), 21, over_long);
  return pair;
}

/// The farthest that the recovered map is off the truth over the sheet, and the mean.
struct Off {
  double mean = 0, worst = 0;
};
Off off(const Affine& found, const Affine& truth, Size paper) {
  Off result;
  for (int i = 0; i < 25; ++i) {
    const Point p{Mm{15} + (paper.width - Mm{30}) * (i % 5 / 4.0),
                  Mm{15} + (paper.height - Mm{30}) * (i / 5 / 4.0)};
    const double distance = length(found(p) - truth(p)).value;
    result.mean += distance / 25;
    result.worst = std::max(result.worst, distance);
  }
  return result;
}

Result<ScanMeasured> measure(const SimulatedPair& pair, game::FlipEdge flip = over_long) {
  const auto front = read_side(pair.front, papers, front_file);
  if (!front) return front.why();
  const auto back = read_side(pair.back, papers, back_file);
  if (!back) return back.why();
  return measure_pair(*front, *back, flip, front_file, back_file);
}

std::string first_message(const Result<ScanMeasured>& result) {
  return result ? "measured" : result.why().front().message;
}

GreyImage turned_image(const GreyImage& image, int quarters) {
  GreyImage from = image;
  for (int i = 0; i < quarters; ++i) {
    GreyImage to{from.height, from.width, {}};
    for (int y = 0; y < to.height; ++y) {
      for (int x = 0; x < to.width; ++x) to.pixels.push_back(from.at(y, from.height - 1 - x));
    }
    from = std::move(to);
  }
  return from;
}

GreyImage mirrored_image(const GreyImage& image) {
  GreyImage to{image.width, image.height, {}};
  for (int y = 0; y < to.height; ++y) {
    for (int x = 0; x < to.width; ++x) to.pixels.push_back(image.at(image.width - 1 - x, y));
  }
  return to;
}

TEST(ReadScans, finds_the_map_by_six_pinholes_on_every_paper_and_flip) {
  for (const auto& [paper, flip] :
       {std::pair{a4_paper, over_short}, {turned(letter_paper), over_long}}) {
    const SheetLayout layout = sheet_layout(paper);
    const SimulatedPair pair = simulated_pair(layout, quick(), 101, flip);
    const auto found = measure(pair);
    ASSERT_TRUE(found) << first_message(found);
    EXPECT_EQ(found->reference, Reference::pinholes);
    EXPECT_EQ(found->references, 6);
    EXPECT_EQ(found->flip, flip);
    EXPECT_EQ(found->paper, paper);
    const Off error = off(found->sheet.back, pair.truth, paper);
    EXPECT_LT(error.mean, 0.12);
    // The bound holds for 95 in 100: tests/bench/register.cpp counts.
    EXPECT_LT(error.worst, found->sheet.within.value);
  }
}

TEST(ReadScans, is_exact_when_nothing_is_wrong_with_paper_and_scanner) {
  SimulatedFaults faults = quick();
  faults.wobble_mm = faults.pin_slant_mm = faults.edge_bias_mm = 0;
  faults.noise_most = faults.noise_least = 0;
  faults.dust = 0;
  const SheetLayout layout = sheet_layout(a4_paper);
  const SimulatedPair pair = simulated_pair(layout, faults, 7, over_long);
  const auto found = measure(pair);
  ASSERT_TRUE(found) << first_message(found);
  EXPECT_LT(off(found->sheet.back, pair.truth, a4_paper).worst, 0.02);
}

TEST(ReadScans, finds_the_map_by_the_edges_of_the_paper) {
  SimulatedFaults faults = quick();
  faults.pins = 0;
  const SheetLayout layout = sheet_layout(a4_paper);
  const SimulatedPair pair = simulated_pair(layout, faults, 11, over_long);
  const auto found = measure(pair);
  ASSERT_TRUE(found) << first_message(found);
  EXPECT_EQ(found->reference, Reference::edges);
  EXPECT_LT(off(found->sheet.back, pair.truth, a4_paper).worst, 0.25);
}

TEST(ReadScans, takes_pictures_whichever_way_they_lie) {
  SimulatedPair pair = usual_pair();
  const auto upright = measure(pair);
  pair.front = turned_image(pair.front, 2);
  pair.back = turned_image(pair.back, 1);
  const auto found = measure(pair);
  ASSERT_TRUE(upright && found) << first_message(found);
  EXPECT_LT(off(found->sheet.back, upright->sheet.back, a4_paper).worst, 0.01);
}

TEST(ReadScans, refuses_the_same_side_twice_and_sides_in_the_wrong_order) {
  const SimulatedPair& pair = usual_pair();
  EXPECT_EQ(first_message(measure({pair.front, pair.front, {}, {}})),
            "the picture given as the back shows the front");
  const auto swapped = measure({pair.back, pair.front, {}, {}});
  EXPECT_EQ(first_message(swapped), "the picture given as the front shows the back");
  EXPECT_EQ(swapped.why().front().origin.file, front_file);
  EXPECT_THAT(swapped.why().front().hints,
              ElementsAre("name the picture of the front first, then that of the back"));
}

TEST(ReadScans, refuses_a_mirrored_picture) {
  SimulatedPair pair = usual_pair();
  pair.front = mirrored_image(pair.front);
  EXPECT_EQ(first_message(measure(pair)), "the picture shows the sheet mirrored");
}

TEST(ReadScans, refuses_what_is_no_measuring_sheet) {
  for (const int level : {0, 128, 255}) {
    GreyImage flat{800, 1100, {}};
    flat.pixels.assign(800 * 1100, static_cast<std::uint8_t>(level));
    EXPECT_EQ(first_message(measure({flat, flat, {}, {}})),
              "none of the 8 square codes of the measuring sheet is to be seen");
  }
  GreyImage noise{600, 800, {}};
  std::mt19937 random(5);
  for (int i = 0; i < 600 * 800; ++i) noise.pixels.push_back(static_cast<std::uint8_t>(random()));
  EXPECT_EQ(first_message(measure({noise, noise, {}, {}})),
            "none of the 8 square codes of the measuring sheet is to be seen");
  EXPECT_FALSE(measure({GreyImage{1, 1, {9}}, GreyImage{}, {}, {}}));
}

TEST(ReadScans, refuses_a_curled_sheet) {
  SimulatedFaults faults = quick();
  faults.curl_mm = 1;
  const SheetLayout layout = sheet_layout(a4_paper);
  const auto found = measure(simulated_pair(layout, faults, 51, over_long));
  ASSERT_FALSE(found);
  EXPECT_EQ(found.why().front().id, Id::press_scan_not_flat);
}

TEST(ReadScans, refuses_a_sheet_without_holes_on_a_white_lid) {
  SimulatedFaults faults = quick();
  faults.white_lid = true;
  const SheetLayout layout = sheet_layout(a4_paper);
  const auto found = measure(simulated_pair(layout, faults, 61, over_long));
  ASSERT_FALSE(found);
  EXPECT_EQ(found.why().front().message,
            "0 pinholes are seen on the front and 0 on the back, and 4 are needed on both");
}

TEST(ReadScans, refuses_half_a_sheet_and_coarse_pictures) {
  SimulatedFaults faults = quick();
  faults.missing = 0.55;
  const SheetLayout layout = sheet_layout(a4_paper);
  EXPECT_FALSE(measure(simulated_pair(layout, faults, 71, over_long)));
  faults = quick();
  faults.ppi = 60;
  const auto coarse = measure(simulated_pair(layout, faults, 72, over_long));
  ASSERT_FALSE(coarse);
}

TEST(ReadScans, takes_photographs_in_perspective) {
  SimulatedFaults faults = quick();
  faults.perspective = 0.08;
  faults.wobble_mm = 0;
  const SheetLayout layout = sheet_layout(a4_paper);
  const SimulatedPair pair = simulated_pair(layout, faults, 83, over_long);
  const auto found = measure(pair);
  ASSERT_TRUE(found) << first_message(found);
  EXPECT_LT(off(found->sheet.back, pair.truth, a4_paper).worst, found->sheet.within.value);
}

TEST(FindDot, finds_the_middle_to_a_fiftieth_of_a_pixel) {
  std::mt19937 random(9);
  std::uniform_real_distribution<double> any(-0.5, 0.5);
  for (int i = 0; i < 20; ++i) {
    simulated::Painting painting(121, 121, 0.95);
    const Pixel middle{60.5 + any(random), 60.5 + any(random)};
    painting.disc(middle, 23.6, 0.12);
    painting.blur(0.8);
    GreyImage image{121, 121, {}};
    for (int y = 0; y < 121; ++y) {
      for (int x = 0; x < 121; ++x) {
        image.pixels.push_back(static_cast<std::uint8_t>(std::lround(painting.at(x, y) * 255)));
      }
    }
    const auto found = find_dot(image, {{60.5, 60.5}, 45, 16, 32, 0});
    ASSERT_TRUE(found);
    EXPECT_NEAR(found->x, middle.x, 0.02);
    EXPECT_NEAR(found->y, middle.y, 0.02);
  }
}

}  // namespace
}  // namespace quoin::press
