#include "press/correction.h"

#include <gmock/gmock.h>

#include <random>

namespace quoin::press {
namespace {

using testing::ElementsAre;

const Size a4{210_mm, 297_mm};
const Affine long_edge{-1, 0, 0, 1, 210_mm, {}};
const Affine short_edge{1, 0, 0, -1, {}, 297_mm};

Profile study() {
  Profile p;
  p.id = "study-laser";
  p.scale_x = 1.004;
  p.scale_y = 0.997;
  p.back = {{1.2_mm, -0.8_mm}, Angle::degrees(0.35), 1.003, 0.996, Angle::degrees(0.1)};
  return p;
}

/// A printer that does to each side what was measured: front places and back places on the paper,
/// both seen from the front.
struct Printer {
  Affine front, back;
};

/// Puts the front where it was found, moved and askew on the paper as no profile knows, and the
/// back to where R says that it lies against it.
Printer printer_of(const Profile& p, const Affine& on_paper) {
  const Point centre{105_mm, 148.5_mm};
  Parts size;
  size.scale_x = p.scale_x;
  size.scale_y = p.scale_y;
  const Affine front = then(map_of(size, centre), on_paper);
  return {front, then(map_of(p.back, centre), front)};
}

TEST(Correction, brings_every_back_behind_its_front_at_true_size) {
  const Profile p = study();
  const Affine askew = then(Affine::turn(Angle::degrees(0.2)), Affine::move({0.7_mm, 1.1_mm}));
  for (const Affine& behind : {long_edge, short_edge}) {
    const Correction maps = correction(p, a4, behind);
    const Printer printer = printer_of(p, askew);
    for (const double x : {0.0, 63.0, 105.0, 210.0}) {
      for (const double y : {0.0, 88.0, 148.5, 297.0}) {
        const Point meant{Mm{x}, Mm{y}};
        const Point front = printer.front(maps.front(meant));
        // The back page is drawn in its own frame; through the paper it is seen behind.
        const Point back = printer.back(behind(maps.back(behind(meant))));
        EXPECT_LT(length(front - back), 1e-9_mm) << x << ", " << y;
      }
    }
    const Point a = printer.front(maps.front(Point{10_mm, 10_mm}));
    const Point b = printer.front(maps.front(Point{110_mm, 10_mm}));
    EXPECT_NEAR(length(a - b).value, 100, 1e-9);
  }
}

TEST(Landing, is_where_it_was_meant_once_it_is_corrected_and_off_as_measured_when_not) {
  const Profile p = study();
  for (const Affine& behind : {long_edge, short_edge}) {
    const Correction maps = correction(p, a4, behind);
    const Landing lands = landing(p, a4, behind);
    for (const Point meant : {Point{5_mm, 9_mm}, Point{105_mm, 148.5_mm}, Point{200_mm, 290_mm}}) {
      EXPECT_LT(length(lands.front(maps.front(meant)) - meant), 1e-9_mm);
      EXPECT_LT(length(lands.back(maps.back(meant)) - meant), 1e-9_mm);
    }
    // The middle of the sheet scales and turns about itself: only the shift is left.
    const Point middle{105_mm, 148.5_mm};
    const Vec off = behind(lands.back(behind(middle))) - middle;
    EXPECT_NEAR(off.x.value, 1.2 * p.scale_x, 1e-9);
    EXPECT_NEAR(off.y.value, -0.8 * p.scale_y, 1e-9);
  }
}

TEST(Correction, changes_nothing_for_a_printer_without_fault) {
  const Correction maps = correction(Profile{}, a4, long_edge);
  EXPECT_EQ(maps.front, Affine{});
  EXPECT_EQ(maps.back, Affine{});
}

TEST(Differences, name_each_thing_that_was_otherwise) {
  const Profile p = study();
  SheetRun run{a4, game::BackPrinting::printer, game::FlipEdge::long_edge, "A4", {}};
  EXPECT_TRUE(differences(p, run).empty());
  run.paper = turned(a4);
  run.flip = game::FlipEdge::short_edge;
  run.backs = game::BackPrinting::by_hand;
  std::vector<std::string> messages;
  for (const Diagnostic& each : differences(p, run)) messages.push_back(each.message);
  EXPECT_THAT(messages,
              ElementsAre("study-laser was measured on paper of 210 x 297 mm, and these sheets are "
                          "297 x 210 mm",
                          "study-laser was measured with sheets turned by the printer, and these "
                          "are turned by hand",
                          "study-laser turned its sheets about the long edge, and these are turned "
                          "about the short edge"));
}

TEST(Differences, mind_only_the_paper_when_backs_are_not_printed_behind) {
  SheetRun run{a4, game::BackPrinting::fold, game::FlipEdge::short_edge, "A4", {}};
  EXPECT_TRUE(differences(study(), run).empty());
}

TEST(MapOf, gives_parts_back) {
  std::mt19937 random(5);
  std::uniform_real_distribution<double> part(-1, 1);
  const Point centre{105_mm, 148.5_mm};
  for (int i = 0; i < 100; ++i) {
    const Parts parts{{Mm{part(random)}, Mm{part(random)}},
                      Angle::degrees(part(random)),
                      1 + 0.01 * part(random),
                      1 + 0.01 * part(random),
                      Angle::degrees(part(random))};
    const Parts back = parts_of(map_of(parts, centre), centre);
    EXPECT_NEAR(back.shift.x.value, parts.shift.x.value, 1e-12);
    EXPECT_NEAR(back.turn.radians, parts.turn.radians, 1e-12);
    EXPECT_NEAR(back.scale_x, parts.scale_x, 1e-12);
    EXPECT_NEAR(back.scale_y, parts.scale_y, 1e-12);
    EXPECT_NEAR(back.skew.radians, parts.skew.radians, 1e-12);
  }
}

TEST(UsualSpread, is_wider_by_hand_than_at_a_copy_shop) {
  using game::BackPrinting, game::PrinterKind;
  const Spread shop = usual_spread(PrinterKind::copy_shop, BackPrinting::printer);
  const Spread home = usual_spread(PrinterKind::laser, BackPrinting::printer);
  const Spread hand = usual_spread(PrinterKind::laser, BackPrinting::by_hand);
  EXPECT_LT(shop.shift_x, home.shift_x);
  EXPECT_LT(home.shift_x, hand.shift_x);
}

}  // namespace
}  // namespace quoin::press
