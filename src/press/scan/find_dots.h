#pragma once
#include <optional>

#include "press/scan/grey_image.h"

namespace quoin::press {

/// A dark round thing that is looked for.
struct DotSought {
  Pixel near;        ///< where it should be
  double reach = 0;  ///< half the window's side, pixels
  double least_radius = 0, most_radius = 0;
  /// Dark from this part of the way from paper to black; 0: half of the darkest in the window.
  double threshold = 0;
};

/// The middle of the dark patch nearest to where it should be, of a size that was asked for and
/// clear of the window's edge. Nothing when there is none, or when the window leaves the image.
///
/// Paper's brightness is a plane through the brightest two fifths of the window; the middle is the
/// centroid of darkness (above 0.06, the grain of paper) over the patch and two pixels round it.
[[nodiscard]] std::optional<Pixel> find_dot(const GreyImage& image, const DotSought& sought);

}  // namespace quoin::press
