#pragma once
#include "trace/pixels/labels.h"

namespace quoin::trace {

/// Connected cells of one colour.
struct Region {
  int label = 0;          ///< its colour; -1 when it has a ramp
  std::int64_t area = 0;  ///< cells
  Three mean;             ///< sRGB of its cells
};

/// A cut of the picture into regions that touch along cell sides.
struct Regions {
  Grid<int> of;  ///< the region of each cell
  std::vector<Region> all;
  [[nodiscard]] int count() const { return static_cast<int>(all.size()); }
};

/// Two regions that touch, `a` < `b`, and along how many cell sides.
struct Contact {
  int a = 0, b = 0;
  int length = 0;
};
[[nodiscard]] std::vector<Contact> contacts(const Regions& regions);

[[nodiscard]] Regions connected(const Grid<int>& labels, const Grid<Rgb>& enlarged);

/// How specks are dropped.
struct SpeckRules {
  double pixels = 6;  ///< smaller than so many pixels of the picture
  double noise = 0;   ///< its standard deviation: faint specks are then dropped while larger
  int most = 20'000;  ///< regions that may be left; the limit grows until it is kept
};

/// Regions without specks: each goes to the neighbour that it shares most of its outline with and
/// that is most like it. Strong specks stay down to a third of the limit: they are eyes. Corners
/// where two colours meet themselves crosswise are opened.
[[nodiscard]] Regions without_specks(Grid<int> labels, const Coloured& picture,
                                     const SpeckRules& rules);

}  // namespace quoin::trace
