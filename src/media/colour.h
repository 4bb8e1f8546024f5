#pragma once
#include <array>
#include <optional>
#include <string>
#include <string_view>

namespace quoin {

/// A colour of the sRGB space (IEC 61966-2-1), each part 0..1, alpha 1 = opaque. Not
/// premultiplied.
struct Colour {
  double red = 0, green = 0, blue = 0, alpha = 1;
  constexpr bool operator==(const Colour&) const = default;
};

inline constexpr Colour black{0, 0, 0, 1};
inline constexpr Colour white{1, 1, 1, 1};

/// Reads "#rgb", "#rgba", "#rrggbb", "#rrggbbaa" and the words black, white, transparent.
[[nodiscard]] std::optional<Colour> parse_colour(std::string_view text);
/// "#1d2b33", with two more digits when not opaque.
[[nodiscard]] std::string to_string(Colour colour);
/// `over` painted on an opaque `under`.
[[nodiscard]] Colour composited(Colour over, Colour under);

/// CIE 1976 L*a*b* under D65, 2 degree observer.
struct Lab {
  double l = 0, a = 0, b = 0;
};
[[nodiscard]] Lab to_lab(Colour colour);

/// CIEDE2000 colour difference with kL = kC = kH = 1.
/// Source: Sharma, Wu, Dalal, "The CIEDE2000 Color-Difference Formula", Color Research and
/// Application 30(1), 2005; checked on its 34 published pairs (tests/outside).
[[nodiscard]] double ciede2000(Lab a, Lab b);

/// The kinds of colour-vision deficiency that can be simulated.
enum class Vision { normal, protan, deutan, tritan };
[[nodiscard]] std::string_view to_string(Vision vision);

/// How a colour looks to somebody with that deficiency at full severity.
/// Source: Machado, Oliveira, Fernandes, "A Physiologically-based Model for Simulation of Color
/// Vision Deficiency", IEEE TVCG 15(6), 2009; matrices applied to linear sRGB, then clipped.
[[nodiscard]] Colour seen_with(Vision vision, Colour colour);
/// The 3x3 matrix itself, row by row; severity 0..1 in steps of 0.1, in between interpolated.
[[nodiscard]] std::array<double, 9> machado_matrix(Vision vision, double severity);

/// Relative luminance, WCAG 2.2 definition.
[[nodiscard]] double relative_luminance(Colour colour);
/// Contrast ratio 1..21, WCAG 2.2 definition. A screen rule, used as a guide for print.
[[nodiscard]] double contrast_ratio(Colour a, Colour b);

}  // namespace quoin
