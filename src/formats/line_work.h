#pragma once
#include <optional>
#include <vector>

#include "scene/scene.h"

namespace quoin {

/// Whether what lies on a layer tells a machine or a maker what to do with the board, and is no
/// part of the picture: cut, crease, glue, bleed, safe area, dimensions.
[[nodiscard]] bool is_line_work(Layer layer);

/// A shape of a drawing, all maps and opacities worked in: places are in the drawing's frame.
struct DrawnLine {
  Path path;
  std::optional<Colour> fill;  ///< alpha is never 0
  std::optional<Colour> line;  ///< of the stroke; alpha is never 0
  Mm width;                    ///< of the stroke; a map that scales unevenly scales it by the mean
  std::vector<Mm> dash;
  LineJoin join = LineJoin::round;
  LineCap cap = LineCap::butt;
};

/// The shapes and letters of an item, in the order of drawing; letters become outlines, filled in
/// the text's colour. What has neither fill nor stroke is left out.
///
/// Throws `std::logic_error` for what is no line: pictures, gradients, clips, shadows and outlines.
/// Line work is drawn by Quoin, never by a maker's layout, so these are our own mistakes.
[[nodiscard]] std::vector<DrawnLine> line_work(const Item& item);

}  // namespace quoin
