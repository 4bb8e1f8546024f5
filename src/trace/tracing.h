#pragma once
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "media/colour.h"

namespace quoin::trace {

/// A place in the picture that was traced: its pixels, from the top left corner, y down.
struct Spot {
  double x = 0, y = 0;
  bool operator==(const Spot&) const = default;
};
constexpr Spot operator+(Spot a, Spot b) { return {a.x + b.x, a.y + b.y}; }
constexpr Spot operator-(Spot a, Spot b) { return {a.x - b.x, a.y - b.y}; }
constexpr Spot operator*(Spot a, double k) { return {a.x * k, a.y * k}; }

/// A piece of a border: a straight line from `p[0]` to `p[3]`, or a cubic Bézier curve.
struct Curve {
  Spot p[4];
  bool straight = false;
};

struct Circle {
  Spot centre;
  double radius = 0;  ///< pixels
};

/// The line between two faces, drawn once and used by both. A border that is a circle has its
/// four quarters as curves as well.
struct Border {
  std::vector<Curve> curves;
  int left = -1, right = -1;  ///< faces on either side as the curves run; -1: outside the picture
  bool closed = false;        ///< it ends where it began and meets no other
  std::optional<Circle> circle;
};

struct BorderUse {
  int border = 0;
  bool forward = true;
};
/// Borders one after another, back to where they began.
using Loop = std::vector<BorderUse>;

/// Colours along a line or outwards from a point; offsets 0..1.
struct FillStop {
  double offset = 0;
  Colour colour;
};
struct LinearFill {
  Spot from, to;
  std::vector<FillStop> stops;
};
struct RadialFill {
  Spot centre;
  double radius = 0;  ///< pixels
  std::vector<FillStop> stops;
};
/// What a layer is painted with. An alpha of 0: nothing, the page shows.
using Fill = std::variant<Colour, LinearFill, RadialFill>;

/// One connected part of one colour.
struct Face {
  int layer = -1;           ///< -1: a transparent part, not painted
  double area = 0;          ///< square pixels
  std::vector<Loop> drawn;  ///< its outline, and those holes that must be cut out of it
  /// Borders under which it reaches beneath a later neighbour, in runs without a break. A run that
  /// comes back to where it began is closed.
  std::vector<Loop> trapped;
};

/// A line of even width that is drawn as a stroke, above all faces.
struct StrokeLine {
  std::vector<Curve> curves;
  double width = 0;  ///< pixels
  bool closed = false;
  bool round_ends = false;
};

/// All that has one colour, or one gradient: a group in the SVG. Layers are painted in their
/// order, and within a layer its faces, then the edges that reach under later ones, then its lines.
struct Layer {
  std::string name;  ///< "dark blue", unlike that of any other layer
  Fill fill;
  std::vector<int> faces;
  std::vector<StrokeLine> lines;
};

/// A block of lettering too small to be followed, and left out.
struct SmallText {
  Spot at;  ///< top left
  double width = 0, height = 0;
};

/// A picture redrawn as a planar map: faces side by side, each border one line.
struct Tracing {
  int width = 0, height = 0;  ///< of the picture, in pixels
  std::vector<Border> borders;
  std::vector<Face> faces;
  std::vector<Layer> layers;
  std::vector<SmallText> small_text;
  double noise = 0;       ///< standard deviation that was measured, 0..255
  bool smoothed = false;  ///< noise was taken away before tracing
  bool halved = false;    ///< the picture was too large to be traced at its full size
};

/// Curves that a person would have to edit: each border and each line counted once.
[[nodiscard]] int node_count(const Tracing& tracing);

}  // namespace quoin::trace
