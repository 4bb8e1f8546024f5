#pragma once
#include <cairo.h>

#include <memory>
#include <optional>

#include "geometry/path.h"
#include "media/paint.h"
#include "media/text/handles.h"

namespace quoin {

using CairoPtr = std::unique_ptr<cairo_t, Closer<cairo_destroy>>;
using SurfacePtr = std::unique_ptr<cairo_surface_t, Closer<cairo_surface_destroy>>;
using PatternPtr = std::unique_ptr<cairo_pattern_t, Closer<cairo_pattern_destroy>>;

/// cairo_save and cairo_restore round a scope.
class Saved {
 public:
  explicit Saved(cairo_t* cr) : cr_(cr) { cairo_save(cr_); }
  ~Saved() { cairo_restore(cr_); }
  Saved(const Saved&) = delete;
  Saved& operator=(const Saved&) = delete;

 private:
  cairo_t* cr_;
};

[[nodiscard]] cairo_matrix_t to_cairo(const Affine& map);

/// Makes `path` the current path. A path with a place that is no number is left out whole: cairo
/// would refuse all that comes after it.
void put_path(cairo_t* cr, const Path& path);

/// Makes `paint` the source. With `flat` the paint keeps its opacity and takes that colour. False
/// when the paint leaves nothing to see.
[[nodiscard]] bool put_paint(cairo_t* cr, const Paint& paint, const std::optional<Colour>& flat);

/// Sets width, dashes, joins and caps. False when the stroke draws nothing.
[[nodiscard]] bool put_pen(cairo_t* cr, const Stroke& stroke);

/// Device units a millimetre, as the square root of what areas are multiplied by.
[[nodiscard]] double device_scale(cairo_t* cr);

}  // namespace quoin
