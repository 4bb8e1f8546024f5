#pragma once
#include <cmath>
#include <compare>
#include <numbers>

namespace quoin {

/// A length in millimetres, the only unit of length inside Quoin.
///
/// A bare number never becomes a length by itself: write `Mm{3}` or `3_mm`. A length times a
/// number is a length; a length over a length is a number; a length times a length does not
/// compile (tests/refused/ proves it). Points (1/72 in) exist only while a PDF is written,
/// pixels only inside raster code.
struct Mm {
  double value = 0;

  constexpr Mm() = default;
  constexpr explicit Mm(double millimetres) : value(millimetres) {}

  constexpr auto operator<=>(const Mm&) const = default;
  constexpr Mm operator-() const { return Mm{-value}; }
  constexpr Mm& operator+=(Mm other) {
    value += other.value;
    return *this;
  }
  constexpr Mm& operator-=(Mm other) {
    value -= other.value;
    return *this;
  }
};

constexpr Mm operator+(Mm a, Mm b) { return Mm{a.value + b.value}; }
constexpr Mm operator-(Mm a, Mm b) { return Mm{a.value - b.value}; }
constexpr Mm operator*(Mm a, double factor) { return Mm{a.value * factor}; }
constexpr Mm operator*(double factor, Mm a) { return a * factor; }
constexpr Mm operator/(Mm a, double divisor) { return Mm{a.value / divisor}; }
constexpr double operator/(Mm a, Mm b) { return a.value / b.value; }

constexpr Mm operator""_mm(long double v) { return Mm{static_cast<double>(v)}; }
constexpr Mm operator""_mm(unsigned long long v) { return Mm{static_cast<double>(v)}; }

/// Lengths closer than this are equal: 0.01 mm, far below what a blade can do.
inline constexpr Mm epsilon{0.01};

[[nodiscard]] constexpr Mm abs(Mm a) { return a.value < 0 ? -a : a; }
[[nodiscard]] constexpr bool nearly_equal(Mm a, Mm b) { return abs(a - b) <= epsilon; }
/// True when `part` is no larger than `whole`, forgiving one epsilon.
[[nodiscard]] constexpr bool fits(Mm part, Mm whole) { return part <= whole + epsilon; }

inline constexpr double mm_per_inch = 25.4;  // exact by definition of the inch
inline constexpr double points_per_inch = 72;

/// An angle; degrees at the edges of the program, radians inside. Positive turns clockwise on
/// the page, since y points down.
struct Angle {
  double radians = 0;
  [[nodiscard]] static constexpr Angle degrees(double d) {
    return Angle{d * std::numbers::pi / 180};
  }
  [[nodiscard]] constexpr double in_degrees() const { return radians * 180 / std::numbers::pi; }
  constexpr auto operator<=>(const Angle&) const = default;
};

/// Sine and cosine, exact (0, 1 or -1) at multiples of 90 degrees so that a quarter turn of a
/// card moves no edge.
struct SinCos {
  double sin = 0, cos = 1;
};
[[nodiscard]] inline SinCos sin_cos(Angle angle) {
  const double quarters = angle.radians / (std::numbers::pi / 2);
  const double nearest = std::round(quarters);
  if (std::abs(quarters - nearest) < 1e-12) {
    switch (((static_cast<long long>(nearest) % 4) + 4) % 4) {
      case 0:
        return {0, 1};
      case 1:
        return {1, 0};
      case 2:
        return {0, -1};
      default:
        return {-1, 0};
    }
  }
  return {std::sin(angle.radians), std::cos(angle.radians)};
}

}  // namespace quoin
