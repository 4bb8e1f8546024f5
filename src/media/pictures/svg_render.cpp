#include "media/pictures/svg_render.h"

#include <cairo.h>
#include <librsvg/rsvg.h>

#include <algorithm>
#include <cmath>
#include <memory>

namespace quoin::pictures {
namespace {

struct Unref {
  void operator()(RsvgHandle* handle) const { g_object_unref(handle); }
};
using Handle = std::unique_ptr<RsvgHandle, Unref>;

/// Without a base address: nothing outside the text can be reached.
Handle load(const Bytes& svg, std::string& error) {
  GError* failure = nullptr;
  Handle handle(
      rsvg_handle_new_from_data(reinterpret_cast<const guint8*>(svg.data()), svg.size(), &failure));
  if (failure != nullptr) {
    error = failure->message;
    g_error_free(failure);
  }
  constexpr double px_per_inch = 96;  // CSS; the library's own default is 90
  if (handle != nullptr) rsvg_handle_set_dpi(handle.get(), px_per_inch);
  return handle;
}

bool is_size(double width, double height) {
  return std::isfinite(width) && std::isfinite(height) && width > 0 && height > 0;
}

NaturalSize size_of(RsvgHandle* handle) {
  gboolean has_width = FALSE, has_height = FALSE, has_view_box = FALSE;
  RsvgLength width, height;
  RsvgRectangle box{};
  rsvg_handle_get_intrinsic_dimensions(handle, &has_width, &width, &has_height, &height,
                                       &has_view_box, &box);
  has_view_box = has_view_box != FALSE && is_size(box.width, box.height);
  NaturalSize size{0, 0, has_view_box != FALSE};
  double w = 0, h = 0;
  if (rsvg_handle_get_intrinsic_size_in_pixels(handle, &w, &h) != FALSE && is_size(w, h)) {
    size.width = w;
    size.height = h;
  } else if (size.has_view_box) {
    size.width = box.width;
    size.height = box.height;
  }
  return size;
}

struct Drawing {
  cairo_surface_t* surface;
  cairo_t* cairo;
  Drawing(int width, int height)
      : surface(cairo_image_surface_create(CAIRO_FORMAT_ARGB32, width, height)),
        cairo(cairo_create(surface)) {}
  ~Drawing() {
    cairo_destroy(cairo);
    cairo_surface_destroy(surface);
  }
  Drawing(const Drawing&) = delete;
  Drawing& operator=(const Drawing&) = delete;
};

}  // namespace

std::optional<NaturalSize> natural_size(const Bytes& safe_svg, std::string& error) {
  const Handle handle = load(safe_svg, error);
  if (handle == nullptr) return std::nullopt;
  return size_of(handle.get());
}

bool draws(const Bytes& safe_svg, int longest) {
  std::string error;
  const Handle handle = load(safe_svg, error);
  if (handle == nullptr) return false;
  NaturalSize size = size_of(handle.get());
  if (!is_size(size.width, size.height)) size = {1, 1, false};
  const double scale = longest / std::max(size.width, size.height);
  const RsvgRectangle all{0, 0, std::max(1.0, size.width * scale),
                          std::max(1.0, size.height * scale)};
  const Drawing drawing(static_cast<int>(std::ceil(all.width)),
                        static_cast<int>(std::ceil(all.height)));
  return rsvg_handle_render_document(handle.get(), drawing.cairo, &all, nullptr) != FALSE;
}

}  // namespace quoin::pictures
