#pragma once
#include <optional>
#include <string>

#include "geometry/geometry.h"
#include "media/picture.h"

namespace quoin::pictures {

/// The natural size of an SVG in CSS px (1/96 in), as far as only its proportion matters.
struct NaturalSize {
  double width = 0, height = 0;
  bool has_view_box = false;
};

/// Asks librsvg. Nothing when it cannot read the text; a size of 0 x 0 when the text gives none.
[[nodiscard]] std::optional<NaturalSize> natural_size(const Bytes& safe_svg, std::string& error);

/// Draws it `longest` px at its longer side and throws the pixels away; false when librsvg gives
/// up.
[[nodiscard]] bool draws(const Bytes& safe_svg, int longest);

}  // namespace quoin::pictures
