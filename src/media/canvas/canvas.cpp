#include "media/canvas.h"

#include <fmt/format.h>
#include <pango/pangocairo.h>

#include <cmath>

#include "media/canvas/ground.h"
#include "media/canvas/silhouette.h"
#include "media/text/set_text.h"

namespace quoin {
namespace {

/// Calls `with` for each line, the current point at the start of its base line, in layout units.
template <typename With>
void for_each_line(cairo_t* cr, const SetText::State& text, With with) {
  for (const PlacedLine& line : text.lines) {
    const Saved saved(cr);
    cairo_scale(cr, 1 / layout_units_per_mm, 1 / layout_units_per_mm);
    cairo_move_to(cr, line.at.x.value * layout_units_per_mm, line.at.y.value * layout_units_per_mm);
    with(line.line.get());
  }
}

/// Makes the letters' outlines the current path.
void put_letters(cairo_t* cr, const SetText::State& text) {
  cairo_new_path(cr);
  for_each_line(cr, text, [&](PangoLayoutLine* line) { pango_cairo_layout_line_path(cr, line); });
}

bool is_empty(Rect r) {
  return !(r.size.width > Mm{0}) || !(r.size.height > Mm{0}) ||
         !std::isfinite(r.size.width.value + r.size.height.value + r.at.x.value + r.at.y.value);
}

bool is_number(const Affine& map) {
  return std::isfinite(map.determinant()) && std::isfinite(map.e.value) &&
         std::isfinite(map.f.value);
}

}  // namespace

Canvas::Canvas(std::unique_ptr<State> state) : state_(std::move(state)) {}
Canvas::~Canvas() = default;
Canvas::Canvas(Canvas&&) noexcept = default;

void Canvas::save() {
  cairo_save(state_->cr.get());
  ++state_->depth;
}

void Canvas::restore() {
  cairo_restore(state_->cr.get());
  state_->leave();
}

void Canvas::transform(const Affine& map) {
  if (!is_number(map) || std::abs(map.determinant()) < 1e-9) {
    if (state_->flattened_at == 0) state_->flattened_at = state_->depth;
    return;
  }
  const cairo_matrix_t matrix = to_cairo(map);
  cairo_transform(state_->cr.get(), &matrix);
}

void Canvas::clip(const Path& path) {
  put_path(state_->cr.get(), path);
  cairo_clip(state_->cr.get());
}

void Canvas::begin_group() {
  cairo_push_group(state_->cr.get());
  ++state_->depth;
}

void Canvas::end_group(double opacity) {
  cairo_t* const cr = state_->cr.get();
  cairo_pop_group_to_source(cr);
  cairo_paint_with_alpha(cr, std::clamp(opacity, 0.0, 1.0));
  cairo_set_source_rgb(cr, 0, 0, 0);  // lets go of the group
  state_->leave();
}

void Canvas::fill(const Path& path, const Paint& paint) {
  cairo_t* const cr = state_->cr.get();
  if (!state_->draws() || !put_paint(cr, paint, state_->flat)) return;
  put_path(cr, path);
  cairo_fill(cr);
}

void Canvas::stroke(const Path& path, const Stroke& stroke) {
  cairo_t* const cr = state_->cr.get();
  if (!state_->draws() || !put_pen(cr, stroke) || !put_paint(cr, stroke.paint, state_->flat))
    return;
  put_path(cr, path);
  cairo_stroke(cr);
}

void Canvas::picture(const PicturePtr& picture, Rect to) {
  if (!picture || is_empty(to)) return;
  const PictureFacts& facts = picture->facts();
  const bool is_solid = !facts.is_vector() && !facts.has_alpha;
  if (state_->needs_pixels && !is_solid) *state_->needs_pixels = true;
  if (!state_->draws()) return;
  if (state_->flat && is_solid) {
    fill(Path::rectangle(to), black);
  } else if (facts.is_vector()) {
    state_->ground.put_drawing(state_->cr.get(), picture, to);
  } else {
    state_->ground.put_raster(state_->cr.get(), picture, to);
  }
}

void Canvas::text(const SetText& text, Point at) {
  if (!text.state()) return;
  const SetText::State& set = *text.state();
  cairo_t* const cr = state_->cr.get();
  for (const Stroke& stroke : set.strokes) text_outline(text, at, stroke);
  {
    const Saved saved(cr);
    cairo_translate(cr, at.x.value, at.y.value);
    if (state_->draws() && put_paint(cr, set.fill, state_->flat))
      for_each_line(cr, set,
                    [&](PangoLayoutLine* line) { pango_cairo_show_layout_line(cr, line); });
  }
  for (const PlacedSymbol& placed : set.symbols) {
    if (placed.symbol)
      picture(placed.symbol->picture, {at + (placed.to.at - Point{}), placed.to.size});
  }
}

void Canvas::text_outline(const SetText& text, Point at, const Stroke& stroke) {
  cairo_t* const cr = state_->cr.get();
  if (!text.state() || !state_->draws()) return;
  const Saved saved(cr);
  cairo_translate(cr, at.x.value, at.y.value);
  if (!put_pen(cr, stroke) || !put_paint(cr, stroke.paint, state_->flat)) return;
  put_letters(cr, *text.state());
  cairo_stroke(cr);
}

void Canvas::shadow(const Shadow& shadow, Rect ink, const std::string& key,
                    const std::function<void(Canvas&)>& draw) {
  // The shadow of a silhouette is no part of the silhouette.
  if (state_->flat || !state_->draws() || !(shadow.colour.alpha > 0) || is_empty(ink)) return;
  save();
  transform(Affine::move(shadow.offset));
  if (shadow.blur <= Mm{0} && !needs_pixels(*state_, draw)) {
    begin_group();
    draw_flat(*state_, shadow.colour, draw);
    end_group(shadow.colour.alpha);
  } else {
    const double deviation = std::max(0.0, shadow.blur.value / 2);
    const auto soften = [&](const Mask& mask, double scale) {
      return blurred(mask, deviation * scale);
    };
    const auto reach = [&](double scale) { return blur_reach(deviation * scale); };
    put_silhouette(
        *state_,
        {fmt::format("shadow {} {}", shadow.blur.value, key), ink, shadow.colour, soften, reach, 1},
        draw);
  }
  restore();
}

void Canvas::spread(const Outline& outline, Rect ink, const std::string& key,
                    const std::function<void(Canvas&)>& draw) {
  if (state_->needs_pixels) *state_->needs_pixels = true;
  if (!state_->draws() || !(outline.colour.alpha > 0) || is_empty(ink)) return;
  if (!(outline.width > Mm{0})) return;
  Colour colour = outline.colour;
  if (state_->flat) {
    colour = *state_->flat;
    colour.alpha *= outline.colour.alpha;
  }
  const double width = outline.width.value;
  const auto widen = [&](const Mask& mask, double scale) {
    return spread_out(mask, width * scale);
  };
  const auto reach = [&](double scale) { return static_cast<int>(std::ceil(width * scale)) + 1; };
  constexpr double finer = 3;
  put_silhouette(*state_,
                 {fmt::format("spread {} {}", width, key), ink, colour, widen, reach, finer}, draw);
}

}  // namespace quoin
