#include "pieces/card/suit_change.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "media/colour_linear.h"

namespace quoin::pieces {
namespace {

constexpr std::array<Vision, 4> all_eyes{Vision::normal, Vision::protan, Vision::deutan,
                                         Vision::tritan};
using Seen = std::array<Lab, all_eyes.size()>;
constexpr double lightness_favour = 1.5;

Seen seen_by_all(Colour colour) {
  Seen seen{};
  for (std::size_t i = 0; i < all_eyes.size(); ++i) {
    seen[i] = to_lab(seen_with(all_eyes[i], colour));
  }
  return seen;
}

bool far_from_all(Colour colour, const std::vector<Seen>& others, double limit) {
  const Seen own = seen_by_all(colour);
  return std::all_of(others.begin(), others.end(), [&](const Seen& other) {
    for (std::size_t i = 0; i < own.size(); ++i) {
      if (ciede2000(own[i], other[i]) < limit) return false;
    }
    return true;
  });
}

/// The colour as it can be written, or nothing outside sRGB. Inverse of CIE 1976 L*a*b* under D65
/// (CIE 15:2004) and of the matrix of IEC 61966-2-1.
std::optional<Colour> written_colour(Lab lab) {
  const auto inverse = [](double f) {
    return f > 6.0 / 29 ? f * f * f : 3 * (6.0 / 29) * (6.0 / 29) * (f - 4.0 / 29);
  };
  const double middle = (lab.l + 16) / 116;
  const double x = 0.95047 * inverse(middle + lab.a / 500), y = inverse(middle),
               z = 1.08883 * inverse(middle - lab.b / 200);
  const std::array<double, 3> light{3.2404542 * x - 1.5371385 * y - 0.4985314 * z,
                                    -0.9692660 * x + 1.8760108 * y + 0.0415560 * z,
                                    0.0556434 * x - 0.2040259 * y + 1.0572252 * z};
  for (const double part : light) {
    if (part < -1e-3 || part > 1 + 1e-3) return std::nullopt;
  }
  const auto part = [&](std::size_t i) { return srgb_from_linear(std::clamp(light[i], 0.0, 1.0)); };
  return parse_colour(to_string(Colour{part(0), part(1), part(2), 1}));
}

struct Change {
  Colour colour;
  double size = 0;  ///< CIEDE2000
};

std::optional<Change> lighter_or_darker(Colour own, const std::vector<Seen>& others, double limit) {
  const Lab from = to_lab(own);
  std::optional<Change> best;
  for (const double way : {-1.0, 1.0}) {
    for (double step = 0.5; from.l + way * step >= 0 && from.l + way * step <= 100; step += 0.5) {
      const auto colour = written_colour({from.l + way * step, from.a, from.b});
      if (!colour) break;
      if (!far_from_all(*colour, others, limit)) continue;
      const double size = ciede2000(from, to_lab(*colour));
      if (!best || size < best->size) best = Change{*colour, size};
      break;
    }
  }
  return best;
}

/// The smallest safe change among colours `step` apart (of 255), `steps` of them to either side.
std::optional<Change> smallest_about(Colour middle, int step, int steps, Colour own,
                                     const std::vector<Seen>& others, double limit) {
  const Lab from = to_lab(own);
  std::vector<Change> tried;
  const auto values = [&](double part) {
    std::vector<double> all;
    for (int k = -steps; k <= steps; ++k) {
      const long value = std::lround(part * 255) + long{k} * step;
      if (value >= 0 && value <= 255) all.push_back(double(value) / 255);
    }
    return all;
  };
  for (const double red : values(middle.red)) {
    for (const double green : values(middle.green)) {
      for (const double blue : values(middle.blue)) {
        const Colour colour{red, green, blue, 1};
        tried.push_back({colour, ciede2000(from, to_lab(colour))});
      }
    }
  }
  std::stable_sort(tried.begin(), tried.end(),
                   [](const Change& a, const Change& b) { return a.size < b.size; });
  for (const Change& one : tried) {
    if (far_from_all(one.colour, others, limit)) return one;
  }
  return std::nullopt;
}

}  // namespace

double least_difference(Colour a, Colour b) {
  const Seen first = seen_by_all(a), second = seen_by_all(b);
  double least = ciede2000(first[0], second[0]);
  for (std::size_t i = 1; i < first.size(); ++i) {
    least = std::min(least, ciede2000(first[i], second[i]));
  }
  return least;
}

std::optional<Colour> safe_change(Colour own, const std::vector<Colour>& others, double limit) {
  std::vector<Seen> seen;
  for (const Colour& other : others) seen.push_back(seen_by_all(other));
  std::optional<Change> any = smallest_about(own, 17, 15, own, seen, limit);
  if (any) any = smallest_about(any->colour, 4, 4, own, seen, limit);
  if (any) any = smallest_about(any->colour, 1, 3, own, seen, limit);
  const std::optional<Change> plain = lighter_or_darker(own, seen, limit);
  if (plain && (!any || plain->size <= lightness_favour * any->size)) return plain->colour;
  if (any) return any->colour;
  return std::nullopt;
}

}  // namespace quoin::pieces
