#include "media/canvas/silhouette.h"

#include <fmt/format.h>

#include <cmath>
#include <new>

#include "base/hash.h"

namespace quoin {
namespace {

constexpr double most_pixels = 16e6;
constexpr double longest_side = 32000;  // cairo's limit for an image is 32767

SurfacePtr new_pixels(int width, int height) {
  SurfacePtr surface{cairo_image_surface_create(CAIRO_FORMAT_ARGB32, width, height)};
  if (cairo_surface_status(surface.get()) != CAIRO_STATUS_SUCCESS) throw std::bad_alloc();
  return surface;
}

Mask alpha_of(cairo_surface_t* surface) {
  cairo_surface_flush(surface);
  Mask mask{cairo_image_surface_get_width(surface), cairo_image_surface_get_height(surface), {}};
  mask.cover.resize(static_cast<std::size_t>(mask.width) * mask.height);
  const unsigned char* const data = cairo_image_surface_get_data(surface);
  const std::ptrdiff_t stride = cairo_image_surface_get_stride(surface);
  auto to = mask.cover.begin();
  for (int y = 0; y < mask.height; ++y) {
    const auto* const row = reinterpret_cast<const std::uint32_t*>(data + y * stride);
    for (int x = 0; x < mask.width; ++x) *to++ = static_cast<std::uint8_t>(row[x] >> 24);
  }
  return mask;
}

/// Pixels and their size for `ink` with a rim for the change.
struct Grid {
  double pixels_per_mm = 0;
  int width = 0, height = 0;
  Rect covers;
};

Grid grid_at(const SilhouettePlan& plan, double scale) {
  const int rim = plan.reach(scale) + 1;
  const auto pixels = [&](Mm length) { return std::ceil(length.value * scale) + 2.0 * rim; };
  const double width = pixels(plan.ink.size.width), height = pixels(plan.ink.size.height);
  const double limited = std::max(
      {std::sqrt(width * height / most_pixels), width / longest_side, height / longest_side});
  if (limited > 1) return grid_at(plan, scale / (limited * 1.001));
  const Mm edge{rim / scale};
  return {scale,
          static_cast<int>(width),
          static_cast<int>(height),
          {plan.ink.at - Vec{edge, edge}, {Mm{width / scale}, Mm{height / scale}}}};
}

Mask silhouette(const Canvas::State& state, const Grid& grid, const Drawing& draw) {
  const SurfacePtr surface = new_pixels(grid.width, grid.height);
  PixelGround below(state.ground.shelf());
  {
    CairoPtr cr{cairo_create(surface.get())};
    cairo_scale(cr.get(), grid.pixels_per_mm, grid.pixels_per_mm);
    cairo_translate(cr.get(), -grid.covers.left().value, -grid.covers.top().value);
    draw_flat(Canvas::State(std::move(cr), below), black, draw);
  }
  state.ground.report(below.found());
  return alpha_of(surface.get());
}

}  // namespace

bool needs_pixels(const Canvas::State& state, const Drawing& draw) {
  bool needed = false;
  const SurfacePtr nothing = new_pixels(1, 1);
  auto probe = std::make_unique<Canvas::State>(CairoPtr{cairo_create(nothing.get())}, state.ground);
  probe->needs_pixels = &needed;
  Canvas canvas(std::move(probe));
  draw(canvas);
  return needed;
}

void draw_flat(const Canvas::State& state, Colour colour, const Drawing& draw) {
  auto flat =
      std::make_unique<Canvas::State>(CairoPtr{cairo_reference(state.cr.get())}, state.ground);
  colour.alpha = 1;
  flat->flat = colour;
  Canvas canvas(std::move(flat));
  draw(canvas);
}

void put_silhouette(Canvas::State& state, const SilhouettePlan& plan, const Drawing& draw) {
  const double below = device_scale(state.cr.get());
  const double finest = std::max(below, PageRecorder::units_per_mm);
  // Rounded, so that the same drawing at two places is one mask.
  const double scale = std::round(std::min(finest, below * plan.finer) * 1000) / 1000;
  if (!(scale > 0)) return;
  const Grid grid = grid_at(plan, scale);
  const std::string name =
      fmt::format("{} {}x{} at {}", plan.key, grid.width, grid.height, grid.pixels_per_mm);
  state.ground.put_mask(state.cr.get(), sha256(name), grid.covers, plan.colour, [&] {
    return plan.change(silhouette(state, grid, draw), grid.pixels_per_mm);
  });
}

}  // namespace quoin
