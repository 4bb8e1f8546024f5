#pragma once
#include <array>
#include <cmath>
#include <optional>

#include "trace/outline/straight.h"

namespace quoin::trace {

/// Four corners one after another.
using Corners = std::array<Spot, 4>;

[[nodiscard]] inline double size(Spot a) { return std::hypot(a.x, a.y); }
[[nodiscard]] inline Spot mean(const Corners& c) { return (c[0] + c[1] + c[2] + c[3]) * 0.25; }
/// Square pixels, positive when the corners run clockwise on the screen.
[[nodiscard]] double area_of(const Corners& c);
/// Clockwise round their mean, from the one most to the top left.
[[nodiscard]] Corners clockwise(Corners c);
[[nodiscard]] bool is_convex(const Corners& clockwise);
[[nodiscard]] bool lies_in(Spot p, const Corners& clockwise);
/// The largest distance of a corner of one from the nearest of the other.
[[nodiscard]] double farthest_corner(const Corners& a, const Corners& b);

/// A map of one plane onto another that keeps lines straight.
struct Homography {
  std::array<double, 9> m{1, 0, 0, 0, 1, 0, 0, 0, 1};  ///< rows
  [[nodiscard]] Spot operator()(Spot p) const {
    const double w = m[6] * p.x + m[7] * p.y + m[8];
    return {(m[0] * p.x + m[1] * p.y + m[2]) / w, (m[3] * p.x + m[4] * p.y + m[5]) / w};
  }
};
/// Takes (0, 0), (1, 0), (1, 1), (0, 1) to the corners, which must be convex. Source: P. Heckbert,
/// "Fundamentals of Texture Mapping and Image Warping", 1989, 2.2.3.
[[nodiscard]] Homography from_unit_square(const Corners& corners);

/// How a lens bends: see FoundCard::bow.
struct Lens {
  Spot middle;
  double half = 1;  ///< half of the longer side, pixels
  double bow = 0;
  [[nodiscard]] Spot straightened(Spot seen) const {
    const Spot q = seen - middle;
    return middle + q * (1 + bow * dot(q, q) / (half * half));
  }
  [[nodiscard]] Spot as_seen(Spot straight) const;
};

/// How well corners (lens straightened) are those of a rectangle with sides in that proportion,
/// seen by a camera that looks at the middle of the picture.
struct Pose {
  double proportion = 1;  ///< first side over second that the corners have, f chosen to suit
  double misfit = 0;      ///< of proportion and right angle together, in hundredths
  double tilt = 0;        ///< degrees out of the plane of the picture
};
/// The focal length is not known: of those from 0.33 to 3 times the longer side the one that suits
/// best is taken. Source: for a given f, the columns of the homography of a plane are, but for f,
/// two unit vectors at right angles (Z. Zhang, "A Flexible New Technique for Camera Calibration",
/// IEEE PAMI 22(11), 2000, equations 3 and 4).
[[nodiscard]] Pose pose_of(const Corners& straight, double proportion, const Lens& lens);

}  // namespace quoin::trace
