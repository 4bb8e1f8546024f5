#pragma once
#include <algorithm>
#include <optional>

#include "base/units.h"

namespace quoin {

/// A displacement. y points down the page.
struct Vec {
  Mm x, y;
  constexpr bool operator==(const Vec&) const = default;
};

/// A place; on a piece it is measured from the top left corner of the trim, y down.
struct Point {
  Mm x, y;
  constexpr bool operator==(const Point&) const = default;
};

constexpr Point operator+(Point p, Vec v) { return {p.x + v.x, p.y + v.y}; }
constexpr Point operator-(Point p, Vec v) { return {p.x - v.x, p.y - v.y}; }
constexpr Vec operator-(Point a, Point b) { return {a.x - b.x, a.y - b.y}; }
constexpr Vec operator+(Vec a, Vec b) { return {a.x + b.x, a.y + b.y}; }
constexpr Vec operator*(Vec v, double k) { return {v.x * k, v.y * k}; }
[[nodiscard]] inline Mm length(Vec v) { return Mm{std::hypot(v.x.value, v.y.value)}; }

struct Size {
  Mm width, height;
  constexpr bool operator==(const Size&) const = default;
};
/// The size after a quarter turn.
[[nodiscard]] constexpr Size turned(Size s) { return {s.height, s.width}; }
[[nodiscard]] constexpr bool nearly_equal(Size a, Size b) {
  return nearly_equal(a.width, b.width) && nearly_equal(a.height, b.height);
}

/// Widths at the four edges, positive inwards from a frame or outwards from a piece: the name of
/// the variable says which.
struct Insets {
  Mm top, right, bottom, left;
  constexpr bool operator==(const Insets&) const = default;
  [[nodiscard]] static constexpr Insets all(Mm width) { return {width, width, width, width}; }
};

/// A rectangle along the axes. `size` is never negative.
struct Rect {
  Point at;
  Size size;
  constexpr bool operator==(const Rect&) const = default;

  [[nodiscard]] constexpr Mm left() const { return at.x; }
  [[nodiscard]] constexpr Mm top() const { return at.y; }
  [[nodiscard]] constexpr Mm right() const { return at.x + size.width; }
  [[nodiscard]] constexpr Mm bottom() const { return at.y + size.height; }
  [[nodiscard]] constexpr Point centre() const {
    return {at.x + size.width / 2, at.y + size.height / 2};
  }
};
[[nodiscard]] constexpr Rect rect_between(Point a, Point b) {
  const Mm left = std::min(a.x, b.x), top = std::min(a.y, b.y);
  return {{left, top}, {std::max(a.x, b.x) - left, std::max(a.y, b.y) - top}};
}
[[nodiscard]] constexpr Rect grown(Rect r, Insets by) {
  return {{r.at.x - by.left, r.at.y - by.top},
          {r.size.width + by.left + by.right, r.size.height + by.top + by.bottom}};
}
[[nodiscard]] constexpr Rect grown(Rect r, Mm by) { return grown(r, Insets::all(by)); }
/// The part that both cover, or nothing.
[[nodiscard]] constexpr std::optional<Rect> overlap(Rect a, Rect b) {
  const Mm left = std::max(a.left(), b.left()), top = std::max(a.top(), b.top());
  const Mm right = std::min(a.right(), b.right()), bottom = std::min(a.bottom(), b.bottom());
  if (right <= left || bottom <= top) return std::nullopt;
  return Rect{{left, top}, {right - left, bottom - top}};
}
[[nodiscard]] constexpr Rect covering(Rect a, Rect b) {
  return rect_between({std::min(a.left(), b.left()), std::min(a.top(), b.top())},
                      {std::max(a.right(), b.right()), std::max(a.bottom(), b.bottom())});
}
/// True when `inner` lies in `outer`, forgiving one epsilon.
[[nodiscard]] constexpr bool lies_in(Rect inner, Rect outer) {
  return inner.left() >= outer.left() - epsilon && inner.top() >= outer.top() - epsilon &&
         inner.right() <= outer.right() + epsilon && inner.bottom() <= outer.bottom() + epsilon;
}

/// An affine map of the page: x' = a·x + c·y + e, y' = b·x + d·y + f, with e and f in
/// millimetres (the order of a PDF or SVG matrix [a b c d e f]).
struct Affine {
  double a = 1, b = 0, c = 0, d = 1;
  Mm e, f;
  bool operator==(const Affine&) const = default;

  [[nodiscard]] static constexpr Affine move(Vec by) { return {1, 0, 0, 1, by.x, by.y}; }
  [[nodiscard]] static constexpr Affine scale(double x, double y) { return {x, 0, 0, y, {}, {}}; }
  /// Clockwise on the page about the origin; exact at quarter turns.
  [[nodiscard]] static Affine turn(Angle angle) {
    const SinCos t = sin_cos(angle);
    return {t.cos, t.sin, -t.sin, t.cos, {}, {}};
  }
  [[nodiscard]] static Affine turn_about(Point centre, Angle angle);

  [[nodiscard]] constexpr Point operator()(Point p) const {
    return {p.x * a + p.y * c + e, p.x * b + p.y * d + f};
  }
  [[nodiscard]] constexpr Vec operator()(Vec v) const {
    return {v.x * a + v.y * c, v.x * b + v.y * d};
  }
  [[nodiscard]] constexpr double determinant() const { return a * d - b * c; }
};

/// `first`, then `second`.
[[nodiscard]] constexpr Affine then(const Affine& first, const Affine& second) {
  const Point moved = second(Point{first.e, first.f});
  return {second.a * first.a + second.c * first.b,
          second.b * first.a + second.d * first.b,
          second.a * first.c + second.c * first.d,
          second.b * first.c + second.d * first.d,
          moved.x,
          moved.y};
}
/// The map that undoes `map`; nothing when it flattens the page.
[[nodiscard]] std::optional<Affine> inverse(const Affine& map);

/// The smallest upright rectangle round the mapped rectangle.
[[nodiscard]] Rect bounds(const Affine& map, Rect rect);

}  // namespace quoin
