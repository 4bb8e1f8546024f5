#pragma once
#include <string>

#include "geometry/geometry.h"

namespace quoin::pdf {

inline constexpr double points_per_mm = points_per_inch / mm_per_inch;

[[nodiscard]] constexpr double in_points(Mm length) { return length.value * points_per_mm; }

/// A length in points to 1/10000, without superfluous zeros and never "-0"; the same in every
/// locale. Throws `std::logic_error` for what is no number.
[[nodiscard]] std::string length_text(double points);
/// A part of a matrix without unit, to 1/100000000: a card's far corner moves less than 1 um.
[[nodiscard]] std::string ratio_text(double ratio);

/// A map of PDF space (points, y up), written as "a b c d e f".
struct Matrix {
  double a = 1, b = 0, c = 0, d = 1, e = 0, f = 0;
  [[nodiscard]] std::string text() const;
};

/// Takes a drawing whose PDF frame has its origin at the bottom left of `bounds` to a page of
/// height `page_height`, where the drawing's own frame (millimetres, y down) is mapped by `map`.
[[nodiscard]] Matrix matrix_on_page(const Affine& map, Rect bounds, Mm page_height);

/// "x y width height" of a page rectangle in points from the page's bottom left.
[[nodiscard]] std::string rectangle_text(Rect rect, Mm page_height);

}  // namespace quoin::pdf
