#pragma once
#include <string>
#include <vector>

#include "scene/scene.h"

namespace quoin::pieces {

/// A picture of pixels where it is drawn on a face: each element's weakest use of it.
struct PictureUse {
  std::string path;
  std::string element;
  double pixels = 0;        ///< along its weaker side
  Mm covered;               ///< of paper, along that side
  bool along_width = true;  ///< that side is the width
  Size printed;             ///< all of it on paper, along its own sides
  Rect covers;              ///< what is seen of it, in the trim's frame; empty for symbols
  std::size_t leaf = 0;     ///< its place in `leaves_of(scene)`
  /// Pixels an inch on paper.
  [[nodiscard]] double ppi() const { return pixels / (covered.value / mm_per_inch); }
  /// Whether that reaches a limit; half a pixel of rounding in the maker's picture is forgiven.
  [[nodiscard]] bool reaches(double ppi_wanted) const {
    return (pixels + 0.5) / pixels * ppi() >= ppi_wanted;
  }
};

/// All pictures of pixels on a face, symbols in its texts among them (texts must be set), by
/// element and path.
[[nodiscard]] std::vector<PictureUse> picture_uses(const Scene& scene);

}  // namespace quoin::pieces
