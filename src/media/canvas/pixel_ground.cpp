#include <algorithm>
#include <cmath>
#include <cstring>
#include <stdexcept>

#include "media/canvas/ground.h"

namespace quoin {

void Ground::report(const Diagnostics& why) {
  for (const Diagnostic& one : why) {
    if (std::find(found_.begin(), found_.end(), one) == found_.end()) found_.push_back(one);
  }
}

void Ground::report(const PicturePtr& picture, std::string what) {
  report(Diagnostics{{Id::picture_damaged, Origin{FileName(picture->path())}, std::move(what)}});
}

namespace {

SurfacePtr wrapped(const Raster& raster) {
  auto* const data = const_cast<unsigned char*>(  // read only: it serves as a source
      reinterpret_cast<const unsigned char*>(raster.pixels.data()));
  return SurfacePtr{cairo_image_surface_create_for_data(data, CAIRO_FORMAT_ARGB32, raster.width,
                                                        raster.height, raster.width * 4)};
}

SurfacePtr surface_of(const Mask& mask) {
  SurfacePtr surface{cairo_image_surface_create(CAIRO_FORMAT_A8, mask.width, mask.height)};
  unsigned char* const data = cairo_image_surface_get_data(surface.get());
  const std::ptrdiff_t stride = cairo_image_surface_get_stride(surface.get());
  for (int y = 0; data && y < mask.height; ++y)
    std::memcpy(data + y * stride, mask.cover.data() + std::ptrdiff_t{y} * mask.width,
                static_cast<std::size_t>(mask.width));
  cairo_surface_mark_dirty(surface.get());
  return surface;
}

/// Makes one unit in each direction a pixel of a `width` x `height` picture stretched to `to`.
void frame_pixels(cairo_t* cr, Rect to, int width, int height) {
  cairo_translate(cr, to.left().value, to.top().value);
  cairo_scale(cr, to.size.width.value / width, to.size.height.value / height);
}

}  // namespace

void PixelGround::put_raster(cairo_t* cr, const PicturePtr& picture, Rect to) {
  const double device_width = to.size.width.value * device_scale(cr);
  const int enough = static_cast<int>(std::clamp(std::ceil(device_width), 1.0, 1e6));
  const Result<std::shared_ptr<const Raster>> pixels = shelf().pixels(picture, enough);
  if (!pixels) {
    report(pixels.why());
    return;
  }
  const Raster& raster = **pixels;
  if (raster.width < 1 || raster.height < 1) return;
  const SurfacePtr surface = wrapped(raster);
  const Saved saved(cr);
  frame_pixels(cr, to, raster.width, raster.height);
  const PatternPtr pattern{cairo_pattern_create_for_surface(surface.get())};
  // Up to twice too many pixels BILINEAR is right and four times as fast; the shelf seldom hands
  // over more. PAD keeps the edges opaque, where NONE would fade them out.
  const bool close = raster.width <= 2.1 * device_width;
  cairo_pattern_set_filter(pattern.get(), close ? CAIRO_FILTER_BILINEAR : CAIRO_FILTER_GOOD);
  cairo_pattern_set_extend(pattern.get(), CAIRO_EXTEND_PAD);
  cairo_set_source(cr, pattern.get());
  cairo_new_path(cr);
  cairo_rectangle(cr, 0, 0, raster.width, raster.height);
  cairo_fill(cr);
}

void PixelGround::put_drawing(cairo_t* cr, const PicturePtr& picture, Rect to) {
  if (!drawings().draw(cr, *picture, to))
    report(picture, picture->path() + " cannot be drawn to its end");
}

void PixelGround::put_mask(cairo_t* cr, const std::string& key, Rect to, Colour colour,
                           const std::function<Mask()>& make) {
  SurfacePtr& surface = masks_[key];
  if (!surface) surface = surface_of(make());
  const Saved saved(cr);
  frame_pixels(cr, to, cairo_image_surface_get_width(surface.get()),
               cairo_image_surface_get_height(surface.get()));
  cairo_set_source_rgba(cr, colour.red, colour.green, colour.blue, colour.alpha);
  cairo_mask_surface(cr, surface.get(), 0, 0);
}

struct ImageCanvas::State {
  explicit State(PictureShelf& shelf) : ground(shelf) {}
  PixelGround ground;
  SurfacePtr surface;
  std::optional<Canvas> canvas;
};

ImageCanvas::ImageCanvas(PictureShelf& shelf, Size size, double ppi, Background background)
    : state_(std::make_unique<State>(shelf)) {
  const double scale = ppi / mm_per_inch;
  const auto pixels = [&](Mm length) {
    const double count = std::ceil(length.value * scale - 1e-6);
    if (!(count <= 32767)) throw std::length_error("an image canvas wider than 32767 pixels");
    return std::max(1, static_cast<int>(count));
  };
  state_->surface.reset(
      cairo_image_surface_create(CAIRO_FORMAT_ARGB32, pixels(size.width), pixels(size.height)));
  if (cairo_surface_status(state_->surface.get()) != CAIRO_STATUS_SUCCESS) throw std::bad_alloc();
  CairoPtr cr{cairo_create(state_->surface.get())};
  if (background == Background::paper) {
    cairo_set_source_rgb(cr.get(), 1, 1, 1);
    cairo_paint(cr.get());
  }
  cairo_scale(cr.get(), scale, scale);
  state_->canvas.emplace(std::make_unique<Canvas::State>(std::move(cr), state_->ground));
}

ImageCanvas::~ImageCanvas() = default;

Canvas& ImageCanvas::canvas() { return *state_->canvas; }

const Diagnostics& ImageCanvas::found() const { return state_->ground.found(); }

Raster ImageCanvas::raster() const {
  cairo_surface_t* const surface = state_->surface.get();
  cairo_surface_flush(surface);
  Raster raster{
      cairo_image_surface_get_width(surface), cairo_image_surface_get_height(surface), {}};
  raster.pixels.resize(static_cast<std::size_t>(raster.width) * raster.height);
  const unsigned char* const data = cairo_image_surface_get_data(surface);
  const std::ptrdiff_t stride = cairo_image_surface_get_stride(surface);
  const std::size_t row = static_cast<std::size_t>(raster.width) * 4;
  for (int y = 0; y < raster.height; ++y)
    std::memcpy(raster.pixels.data() + std::ptrdiff_t{y} * raster.width, data + y * stride, row);
  return raster;
}

}  // namespace quoin
