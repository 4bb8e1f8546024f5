#include <pango/pangocairo.h>

#include <stdexcept>
#include <utility>

#include "media/canvas/cairo.h"
#include "media/text/set_text.h"

namespace quoin {
namespace {

using CairoPathPtr = std::unique_ptr<cairo_path_t, Closer<cairo_path_destroy>>;

/// Device units a layout unit. Outlines come in 1/64 of a device unit: 0.08 um so; type up to 300
/// mm stays below the 65,535 units that FreeType can count.
constexpr double finer = 8;

Path from_cairo(const cairo_path_t& drawn) {
  Path path;
  Point start;  // pango moves about between letters; only moves that a line follows count
  bool moved = false;
  const auto begin = [&] {
    if (std::exchange(moved, false)) path.move_to(start);
  };
  for (int i = 0; i < drawn.num_data; i += drawn.data[i].header.length) {
    const cairo_path_data_t* const data = drawn.data + i;
    const auto point = [&](int index) {
      return Point{Mm{data[index].point.x}, Mm{data[index].point.y}};
    };
    switch (data->header.type) {
      case CAIRO_PATH_MOVE_TO:
        start = point(1);
        moved = true;
        break;
      case CAIRO_PATH_LINE_TO:
        begin();
        path.line_to(point(1));
        break;
      case CAIRO_PATH_CURVE_TO:
        begin();
        path.curve_to(point(1), point(2), point(3));
        break;
      case CAIRO_PATH_CLOSE_PATH:
        if (!moved) path.close();
        break;
    }
  }
  return path;
}

}  // namespace

TextParts parts_of(const SetText& text) {
  if (!text.state()) throw std::logic_error("a text was taken apart before it was set");
  const SetText::State& set = *text.state();
  const SurfacePtr surface{cairo_image_surface_create(CAIRO_FORMAT_A8, 1, 1)};
  TextParts parts;
  for (const PlacedLine& line : set.lines) {
    const CairoPtr cr{cairo_create(surface.get())};
    cairo_scale(cr.get(), finer, finer);
    cairo_move_to(cr.get(), 0, 0);
    pango_cairo_layout_line_path(cr.get(), line.line.get());
    const CairoPathPtr drawn{cairo_copy_path(cr.get())};
    const Affine to_place = then(Affine::scale(1 / layout_units_per_mm, 1 / layout_units_per_mm),
                                 Affine::move(line.at - Point{}));
    parts.letters.append(mapped(from_cairo(*drawn), to_place));
  }
  for (const PlacedSymbol& placed : set.symbols) {
    if (placed.symbol && placed.symbol->picture)
      parts.symbols.push_back({placed.symbol->picture, placed.to});
  }
  return parts;
}

}  // namespace quoin
