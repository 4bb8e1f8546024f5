#include "media/canvas/cairo.h"

#include <cmath>

#include "media/canvas.h"

namespace quoin {
namespace {

/// cairo counts in 1/256 of a device unit, in 32 bits: places past this are pulled in, far outside
/// any sheet (at 600 ppi the limit would be 355 m).
constexpr double farthest = 1e5;

double near(Mm v) { return std::clamp(v.value, -farthest, farthest); }

bool all_numbers(const Path& path) {
  for (const Path::Step& step : path.steps())
    for (const Point p : step.p)
      if (!std::isfinite(p.x.value) || !std::isfinite(p.y.value)) return false;
  return true;
}

Colour shown(Colour colour, const std::optional<Colour>& flat) {
  if (!flat) return colour;
  return {flat->red, flat->green, flat->blue, flat->alpha * colour.alpha};
}

bool put_gradient(cairo_t* cr, cairo_pattern_t* created, const std::vector<GradientStop>& stops,
                  const std::optional<Colour>& flat) {
  const PatternPtr pattern{created};
  bool visible = false;
  for (const GradientStop& stop : stops) {
    const Colour c = shown(stop.colour, flat);
    visible |= c.alpha > 0;
    cairo_pattern_add_color_stop_rgba(created, stop.offset, c.red, c.green, c.blue, c.alpha);
  }
  cairo_set_source(cr, created);
  return visible;
}

cairo_line_join_t to_cairo(LineJoin join) {
  switch (join) {
    case LineJoin::mitre:
      return CAIRO_LINE_JOIN_MITER;
    case LineJoin::bevel:
      return CAIRO_LINE_JOIN_BEVEL;
    default:
      return CAIRO_LINE_JOIN_ROUND;
  }
}

cairo_line_cap_t to_cairo(LineCap cap) {
  switch (cap) {
    case LineCap::round:
      return CAIRO_LINE_CAP_ROUND;
    case LineCap::square:
      return CAIRO_LINE_CAP_SQUARE;
    default:
      return CAIRO_LINE_CAP_BUTT;
  }
}

}  // namespace

cairo_matrix_t to_cairo(const Affine& map) {
  cairo_matrix_t matrix;
  cairo_matrix_init(&matrix, map.a, map.b, map.c, map.d, map.e.value, map.f.value);
  return matrix;
}

void put_path(cairo_t* cr, const Path& path) {
  cairo_new_path(cr);
  if (!all_numbers(path)) return;
  for (const Path::Step& s : path.steps()) {
    switch (s.verb) {
      case Path::Verb::move:
        cairo_move_to(cr, near(s.p[0].x), near(s.p[0].y));
        break;
      case Path::Verb::line:
        cairo_line_to(cr, near(s.p[0].x), near(s.p[0].y));
        break;
      case Path::Verb::curve:
        cairo_curve_to(cr, near(s.p[0].x), near(s.p[0].y), near(s.p[1].x), near(s.p[1].y),
                       near(s.p[2].x), near(s.p[2].y));
        break;
      case Path::Verb::close:
        cairo_close_path(cr);
        break;
    }
  }
}

bool put_paint(cairo_t* cr, const Paint& paint, const std::optional<Colour>& flat) {
  if (const auto* colour = std::get_if<Colour>(&paint)) {
    const Colour c = shown(*colour, flat);
    cairo_set_source_rgba(cr, c.red, c.green, c.blue, c.alpha);
    return c.alpha > 0;
  }
  if (const auto* linear = std::get_if<LinearGradient>(&paint)) {
    return put_gradient(cr,
                        cairo_pattern_create_linear(linear->from.x.value, linear->from.y.value,
                                                    linear->to.x.value, linear->to.y.value),
                        linear->stops, flat);
  }
  if (const auto* radial = std::get_if<RadialGradient>(&paint)) {
    const double x = radial->centre.x.value, y = radial->centre.y.value;
    return put_gradient(
        cr, cairo_pattern_create_radial(x, y, 0, x, y, std::max(0.0, radial->radius.value)),
        radial->stops, flat);
  }
  return false;
}

bool put_pen(cairo_t* cr, const Stroke& stroke) {
  if (!(stroke.width > Mm{0}) || !std::isfinite(stroke.width.value)) return false;
  cairo_set_line_width(cr, stroke.width.value);
  cairo_set_line_join(cr, to_cairo(stroke.join));
  cairo_set_line_cap(cr, to_cairo(stroke.cap));
  cairo_set_miter_limit(cr, 4);  // SVG 1.1's initial value: sharper corners are bevelled
  std::vector<double> dashes;
  double sum = 0;
  for (const Mm dash : stroke.dash) {
    if (!std::isfinite(dash.value) || dash < Mm{0}) return false;
    dashes.push_back(dash.value);
    sum += dash.value;
  }
  // Dashes finer than a printer's dot are a plain line, and would take for ever.
  if (sum < 0.02 * static_cast<double>(dashes.size())) dashes.clear();
  cairo_set_dash(cr, dashes.data(), static_cast<int>(dashes.size()), 0);
  return true;
}

Rect stroke_bounds(const Path& path, const Stroke& stroke) {
  constexpr double fine = 100;  // device units a millimetre: curves are followed to 0.001 mm
  const SurfacePtr endless{cairo_recording_surface_create(CAIRO_CONTENT_ALPHA, nullptr)};
  const CairoPtr cr{cairo_create(endless.get())};
  cairo_scale(cr.get(), fine, fine);
  if (!put_pen(cr.get(), stroke)) return {};
  put_path(cr.get(), path);
  double left = 0, top = 0, right = 0, bottom = 0;
  cairo_stroke_extents(cr.get(), &left, &top, &right, &bottom);
  return rect_between({Mm{left}, Mm{top}}, {Mm{right}, Mm{bottom}});
}

double device_scale(cairo_t* cr) {
  cairo_matrix_t matrix;
  cairo_get_matrix(cr, &matrix);
  return std::sqrt(std::abs(matrix.xx * matrix.yy - matrix.xy * matrix.yx));
}

}  // namespace quoin
