#pragma once
#include <string>
#include <vector>

#include "base/world.h"
#include "media/picture.h"

namespace quoin::trials {

/// A picture whose vectors are known.
struct KnownPicture {
  std::string name;
  Bytes svg;
  double width = 0, height = 0;  ///< of its viewBox
};

/// Which half of the set: parameters were chosen on the first only.
enum class Half { tuned, held_out };

/// Fourteen icons of four openly licensed packages of the npm registry, from `node_modules`. Throws
/// std::runtime_error when a package or an icon is not there.
[[nodiscard]] std::vector<KnownPicture> icons(const std::string& node_modules, Half half);

/// Drawn on white, so many pixels along its longer side, `times` as large.
[[nodiscard]] Raster rendered(const KnownPicture& picture, int longer_side, int times);
/// An SVG drawn on white.
[[nodiscard]] Raster rendered(const Bytes& svg, int width, int height);
/// The same laid on another colour (0xRRGGBB), to see whether the page shows through.
[[nodiscard]] Raster laid_on(const Raster& drawn, std::uint32_t ground);

/// Each pixel the mean of `times` x `times`.
[[nodiscard]] Raster reduced(const Raster& large, int times);
/// Saved as a JPEG of that quality (4:2:0) and read again.
[[nodiscard]] Raster through_jpeg(const Raster& raster, int quality);
[[nodiscard]] Bytes jpeg_of(const Raster& raster, int quality);
/// Like a photograph of it: blurred by a standard deviation of 0.9 px, with noise of 5 steps.
[[nodiscard]] Raster photographed(const Raster& raster, unsigned seed);

}  // namespace quoin::trials
