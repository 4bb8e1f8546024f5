#pragma once
#include "trace/pixels/grid.h"

namespace quoin::trace {

/// The lightest or darkest pixel across a thin stroke, and what lies on either side of the stroke.
struct Ridge {
  Three one_side, other_side;  ///< L*a*b*
};

/// Which pixels show a colour of the picture and not a mixture of two.
class Core {
 public:
  /// `lab` is the picture in L*a*b*, `noise` its standard deviation.
  Core(const Grid<Three>& lab, double noise);

  [[nodiscard]] bool flat(int x, int y) const { return kind_.at(x, y) == flat_kind; }
  [[nodiscard]] const Ridge* ridge(int x, int y) const {
    const int kind = kind_.at(x, y);
    return kind < 0 ? nullptr : &ridges_[std::size_t(kind)];
  }

 private:
  static constexpr int mixed_kind = -1, flat_kind = -2;
  Grid<int> kind_;  ///< flat, mixed, or the number of its ridge
  std::vector<Ridge> ridges_;
};

}  // namespace quoin::trace
