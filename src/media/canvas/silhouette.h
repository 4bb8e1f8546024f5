#pragma once
#include <functional>
#include <string>

#include "media/canvas/ground.h"

namespace quoin {

using Drawing = std::function<void(Canvas&)>;

/// True when a silhouette of what `draw` draws cannot be had from outlines alone: it draws pictures
/// with clear parts.
[[nodiscard]] bool needs_pixels(const Canvas::State& state, const Drawing& draw);

/// Draws it flat in the hue of `colour`, opaque where it is opaque itself.
void draw_flat(const Canvas::State& state, Colour colour, const Drawing& draw);

/// A silhouette to be made of pixels and changed: softened or spread.
struct SilhouettePlan {
  std::string key;  ///< names drawing and change
  Rect ink;         ///< of the drawing, in the current frame
  Colour colour;
  std::function<Mask(const Mask&, double pixels_per_mm)> change;
  std::function<int(double pixels_per_mm)> reach;  ///< pixels by which the change grows it
  /// How many times finer than the pixels below, up to 600 ppi: hard edges need it, soft do not.
  double finer = 1;
};

/// Makes the silhouette at the resolution of what lies below (600 ppi on pages, or the pixels
/// themselves) and lays it down. Past 16 megapixels it is made coarser instead: on a page that is
/// more than 170 mm square, and a soft edge does not show it.
void put_silhouette(Canvas::State& state, const SilhouettePlan& plan, const Drawing& draw);

}  // namespace quoin
