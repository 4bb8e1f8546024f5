#pragma once
#include <variant>
#include <vector>

#include "geometry/geometry.h"
#include "media/colour.h"

namespace quoin {

struct GradientStop {
  Colour colour;
  double offset = 0;  ///< 0..1 along the gradient
  bool operator==(const GradientStop&) const = default;
};

/// Runs from `from` to `to`; places are in millimetres of the drawing that uses it.
struct LinearGradient {
  Point from, to;
  std::vector<GradientStop> stops;
  bool operator==(const LinearGradient&) const = default;
};
/// Runs from the centre outwards to `radius`.
struct RadialGradient {
  Point centre;
  Mm radius;
  std::vector<GradientStop> stops;
  bool operator==(const RadialGradient&) const = default;
};

struct NoPaint {
  bool operator==(const NoPaint&) const = default;
};
using Paint = std::variant<NoPaint, Colour, LinearGradient, RadialGradient>;

enum class LineJoin { mitre, round, bevel };
enum class LineCap { butt, round, square };

struct Stroke {
  Paint paint = NoPaint{};
  Mm width;
  std::vector<Mm> dash;
  LineJoin join = LineJoin::round;
  LineCap cap = LineCap::butt;
  bool operator==(const Stroke&) const = default;
};

/// A soft or hard shadow thrown by whatever it is attached to. `blur` is the width of the soft
/// edge: the standard deviation of the Gaussian is half of it.
struct Shadow {
  Colour colour{0, 0, 0, 0.4};
  Vec offset;
  Mm blur;
  bool operator==(const Shadow&) const = default;
};

/// A line of even width drawn round the outside of whatever it is attached to, beneath it.
struct Outline {
  Colour colour;
  Mm width;
  bool operator==(const Outline&) const = default;
};

}  // namespace quoin
