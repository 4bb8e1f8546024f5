#pragma once
#include <optional>
#include <vector>

#include "trace/tracing.h"

namespace quoin::trace {

/// How closely points are followed.
struct FitRules {
  double tolerance = 0.2;     ///< pixels
  double tangent_length = 2;  ///< pixels over which the direction at an end is taken
};

/// Directions, one long and pointing into the run, that the ends must keep.
struct EndTangents {
  std::optional<Spot> first, last;
};

/// The points from `first` to `last` as one straight line when all lie within nine tenths of the
/// tolerance, else as cubic Bézier curves that meet smoothly, as few as the tolerance allows.
///
/// Source: Schneider, "An Algorithm for Automatically Fitting Digitized Curves", Graphics Gems,
/// 1990, with six rounds of reparametrisation; afterwards neighbours are joined where one curve
/// will do.
[[nodiscard]] std::vector<Curve> fit_run(const std::vector<Spot>& points, std::size_t first,
                                         std::size_t last, const FitRules& rules,
                                         const EndTangents& ends);

/// The direction in which a run leaves its first point (or its last one, backwards), taken over
/// `reach` pixels.
[[nodiscard]] Spot leaving(const std::vector<Spot>& points, std::size_t first, std::size_t last,
                           double reach, bool forward);

[[nodiscard]] Curve straight_between(Spot from, Spot to);
/// The place on a curve, `t` 0..1.
[[nodiscard]] Spot on_curve(const Curve& curve, double t);
/// The same curve run backwards.
[[nodiscard]] Curve turned(const Curve& curve);
/// A circle as four quarters, clockwise from its rightmost point.
[[nodiscard]] std::vector<Curve> quarters(const Circle& circle);

}  // namespace quoin::trace
