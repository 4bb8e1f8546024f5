#pragma once
#include <optional>
#include <span>

#include "trace/tracing.h"

namespace quoin::trace {

[[nodiscard]] inline double dot(Spot a, Spot b) { return a.x * b.x + a.y * b.y; }
[[nodiscard]] inline double cross(Spot a, Spot b) { return a.x * b.y - a.y * b.x; }
[[nodiscard]] double length(Spot way);
/// In the same direction, one long; to the right for no way at all.
[[nodiscard]] Spot unit(Spot way);

/// A straight line: a point of it and its direction, one long.
struct StraightLine {
  Spot at, way;
};
/// The line with the least sum of squared distances from the points (total least squares); at least
/// two points.
[[nodiscard]] StraightLine best_line(std::span<const Spot> points);
/// Where two lines meet; nothing when they are nearly parallel (sine under 0.2).
[[nodiscard]] std::optional<Spot> meeting(const StraightLine& a, const StraightLine& b);

/// The circle with the least sum of squared differences of squared distances, as Kåsa fits it
/// ("A circle fitting procedure and its error analysis", IEEE Transactions on Instrumentation and
/// Measurement 25, 1976). Nothing for points on a line.
[[nodiscard]] std::optional<Circle> best_circle(std::span<const Spot> points);

}  // namespace quoin::trace
