#pragma once
#include <array>
#include <optional>
#include <vector>

#include "geometry/geometry.h"
#include "press/scan/grey_image.h"

namespace quoin::press {

/// How a flat sheet lies in a picture of it: a projective map from the sheet's page frame (mm) to
/// the picture (pixels), as a camera makes it; a scanner's is one without perspective.
///
/// x' = (m0·x + m1·y + m2) / w, y' = (m3·x + m4·y + m5) / w, w = m6·x + m7·y + m8.
struct PlaneMap {
  std::array<double, 9> m{1, 0, 0, 0, 1, 0, 0, 0, 1};

  [[nodiscard]] Pixel operator()(Point p) const;
  /// Where on the sheet a pixel lies; a map that flattens the sheet gives nothing useful, and none
  /// that `fit_plane` returns does.
  [[nodiscard]] Point place_of(Pixel p) const;
  /// Pixels for a millimetre about a place: the geometric mean of both ways.
  [[nodiscard]] double pixels_per_mm(Point about) const;
};

/// A place of the sheet, and where it was seen.
struct Sighting {
  Point place;
  Pixel seen;
};

enum class Perspective { none, free };

struct PlaneSighted {
  PlaneMap map;
  double rms = 0;  ///< pixels, of the kept
  std::vector<bool> kept;
  int used = 0;
};

/// Least squares in the picture over the sightings, those left out that are farther off than three
/// times the median distance (times 1.4826, to compare with a standard deviation) and than `floor`
/// pixels. Without perspective it is the linear fit; with it the direct linear transformation on
/// normalised places, made least squares by Gauss-Newton steps (R. Hartley and A. Zisserman,
/// "Multiple View Geometry", 2nd ed., algorithms 4.2 and 4.3; from memory). Nothing with fewer than
/// three sightings (four with perspective), on a line, or when the map would fold the sheet over.
[[nodiscard]] std::optional<PlaneSighted> fit_plane(const std::vector<Sighting>& sightings,
                                                    Perspective perspective, double floor);

}  // namespace quoin::press
