#include "trace/pixels/regions.h"

#include <gtest/gtest.h>

#include <random>

#include "trace/pixels/source.h"

namespace quoin::trace {
namespace {

/// In plain noise, where no region is large, the limit for specks must grow until few are left.
TEST(Specks, are_dropped_until_no_more_regions_are_left_than_may_be) {
  constexpr int side = 900, most = 2000;
  std::mt19937 chance(7);
  Grid<int> labels(side, side);
  for (int& label : labels.cells()) label = static_cast<int>(chance() % 4);
  const Palette palette = palette_of({{0, 0, 0}, {255, 0, 0}, {0, 255, 0}, {255, 255, 255}});
  Grid<Rgb> pixels(side, side);
  for (std::size_t i = 0; i < labels.cells().size(); ++i) {
    pixels.cells()[i] = rgb(palette.srgb[std::size_t(labels.cells()[i])]);
  }
  const Grid<Three> lab = lab_of(pixels);
  const Core core(lab, 0);
  const Coloured picture{pixels, pixels, lab, core, palette, 1};
  // What opens corners crosswise afterwards may part a few again.
  EXPECT_LE(without_specks(labels, picture, {6, 0, most}).count(), most * 1.1);
}

}  // namespace
}  // namespace quoin::trace
