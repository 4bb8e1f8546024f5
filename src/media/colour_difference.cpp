#include <cmath>
#include <numbers>

#include "media/colour_linear.h"

namespace quoin {
namespace {

constexpr double degree = std::numbers::pi / 180;

/// CIE 1976 lightness function; the exact fractions of CIE 15:2004.
double cube_root_part(double ratio) {
  constexpr double joint = 216.0 / 24389.0, slope = 24389.0 / 27.0;
  return ratio > joint ? std::cbrt(ratio) : (slope * ratio + 16) / 116;
}

/// Hue in degrees, 0..360; 0 for a grey.
double hue(double a, double b) {
  if (a == 0 && b == 0) return 0;
  const double angle = std::atan2(b, a) / degree;
  return angle < 0 ? angle + 360 : angle;
}

struct Polar {
  double chroma = 0, hue = 0;
};

/// Signed hue step from `a` to `b`, the short way round (equation 10 of Sharma et al. 2005).
double hue_step(Polar a, Polar b) {
  if (a.chroma * b.chroma == 0) return 0;
  const double step = b.hue - a.hue;
  if (step > 180) return step - 360;
  if (step < -180) return step + 360;
  return step;
}

/// Mean hue, the short way round (equation 14).
double mean_hue(Polar a, Polar b) {
  const double sum = a.hue + b.hue;
  if (a.chroma * b.chroma == 0) return sum;
  if (std::abs(a.hue - b.hue) <= 180) return sum / 2;
  return sum < 360 ? (sum + 360) / 2 : (sum - 360) / 2;
}

double seventh_power_share(double chroma) {
  const double seventh = std::pow(chroma, 7);
  return std::sqrt(seventh / (seventh + std::pow(25.0, 7)));
}

}  // namespace

Lab to_lab(Colour colour) {
  // sRGB primaries against D65 (0.95047, 1, 1.08883), at full precision.
  const auto [red, green, blue] = linear(colour);
  const double x = 0.4124564 * red + 0.3575761 * green + 0.1804375 * blue;
  const double y = 0.2126729 * red + 0.7151522 * green + 0.0721750 * blue;
  const double z = 0.0193339 * red + 0.1191920 * green + 0.9503041 * blue;
  const double fx = cube_root_part(x / 0.95047), fy = cube_root_part(y);
  const double fz = cube_root_part(z / 1.08883);
  return {116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)};
}

double ciede2000(Lab a, Lab b) {
  // Names follow the paper: C chroma, h hue, G the a* stretch, T the hue weight, R_T rotation.
  const double mean_plain = (std::hypot(a.a, a.b) + std::hypot(b.a, b.b)) / 2;
  const double stretch = 1 + 0.5 * (1 - seventh_power_share(mean_plain));
  const Polar first{std::hypot(a.a * stretch, a.b), hue(a.a * stretch, a.b)};
  const Polar second{std::hypot(b.a * stretch, b.b), hue(b.a * stretch, b.b)};

  const double lightness_step = b.l - a.l;
  const double chroma_step = second.chroma - first.chroma;
  const double hue_chord =
      2 * std::sqrt(first.chroma * second.chroma) * std::sin(hue_step(first, second) / 2 * degree);

  const double l = (a.l + b.l) / 2, c = (first.chroma + second.chroma) / 2;
  const double h = mean_hue(first, second);
  const double t = 1 - 0.17 * std::cos((h - 30) * degree) + 0.24 * std::cos(2 * h * degree) +
                   0.32 * std::cos((3 * h + 6) * degree) - 0.20 * std::cos((4 * h - 63) * degree);
  const double off_middle = (l - 50) * (l - 50);
  const double weight_l = 1 + 0.015 * off_middle / std::sqrt(20 + off_middle);
  const double weight_c = 1 + 0.045 * c, weight_h = 1 + 0.015 * c * t;
  const double turn = 30 * std::exp(-std::pow((h - 275) / 25, 2));
  const double rotation = -std::sin(2 * turn * degree) * 2 * seventh_power_share(c);

  const double dl = lightness_step / weight_l, dc = chroma_step / weight_c;
  const double dh = hue_chord / weight_h;
  return std::sqrt(dl * dl + dc * dc + dh * dh + rotation * dc * dh);
}

}  // namespace quoin
