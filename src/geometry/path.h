#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "geometry/geometry.h"

namespace quoin {

/// A drawn line in millimetres: straight lines and cubic Bézier curves, in closed and open parts.
class Path {
 public:
  enum class Verb { move, line, curve, close };
  struct Step {
    Verb verb;
    Point p[3];  ///< move, line: p[0] is the end; curve: two handles, then the end; close: none
  };

  Path& move_to(Point p);
  Path& line_to(Point p);
  Path& curve_to(Point handle_a, Point handle_b, Point end);
  Path& close();
  Path& append(const Path& other);

  [[nodiscard]] const std::vector<Step>& steps() const { return steps_; }
  [[nodiscard]] bool empty() const { return steps_.empty(); }

  [[nodiscard]] static Path rectangle(Rect r);
  /// Corners are quarter circles drawn as Béziers (largest radial error 2.7e-4 of the radius).
  /// The radius is limited to half the shorter side.
  [[nodiscard]] static Path rounded_rectangle(Rect r, Mm radius);
  [[nodiscard]] static Path ellipse(Rect r);
  [[nodiscard]] static Path polygon(const std::vector<Point>& corners);

 private:
  std::vector<Step> steps_;
};

[[nodiscard]] Path mapped(const Path& path, const Affine& map);

/// The smallest upright rectangle round the path itself (not round its handles).
[[nodiscard]] Rect bounds(const Path& path);

/// What stopped the reading of path data: byte offset from the start, and what was met there.
struct PathDataError {
  std::size_t offset = 0;
  std::string what;
};

/// Reads SVG path data (SVG 1.1 section 8.3: all commands, absolute and relative, arcs included)
/// with one user unit taken as one millimetre. On a fault `error` is filled and the path drawn
/// up to there is returned.
[[nodiscard]] Path path_from_svg(std::string_view data, std::optional<PathDataError>& error);

}  // namespace quoin
