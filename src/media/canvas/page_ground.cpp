#include "media/canvas/page_ground.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/hash.h"

namespace quoin {
namespace {

constexpr int longest_side = 32767;   // of a cairo image
constexpr double most_pixels = 36e6;  // an SVG's effects at 600 ppi on 254 mm square

void big_endian(Bytes& to, std::size_t value) {
  to += static_cast<char>(value >> 8 & 0xFF);
  to += static_cast<char>(value & 0xFF);
}

/// A JPEG (ITU-T T.81 annex B) of start, comment, frame header and end: enough for whoever copies
/// it without looking inside.
Bytes placeholder_jpeg(const std::string& key, std::size_t width, std::size_t height) {
  Bytes jpeg = "\xFF\xD8\xFF\xFE";
  big_endian(jpeg, key.size() + 2);
  jpeg += key;
  jpeg += "\xFF\xC0";
  big_endian(jpeg, 17);
  jpeg += '\x08';
  big_endian(jpeg, height);
  big_endian(jpeg, width);
  jpeg += '\x03';
  for (const char component : {'\x01', '\x02', '\x03'}) {
    jpeg += component;
    jpeg += '\x11';
    jpeg += '\0';
  }
  return jpeg + "\xFF\xD9";
}

void attach(cairo_surface_t* surface, const char* kind, const Bytes& bytes) {
  auto* const copy = static_cast<unsigned char*>(g_memdup2(bytes.data(), bytes.size()));
  cairo_surface_set_mime_data(surface, kind, copy, bytes.size(), g_free, copy);
}

/// From the unit square of the stored picture to that of the upright one. Source: Exif 2.3
/// (CIPA DC-008), tag 0x0112 Orientation: where the 0th row and the 0th column are seen.
Affine upright(int orientation) {
  switch (orientation) {
    case 2:
      return {-1, 0, 0, 1, Mm{1}, Mm{0}};
    case 3:
      return {-1, 0, 0, -1, Mm{1}, Mm{1}};
    case 4:
      return {1, 0, 0, -1, Mm{0}, Mm{1}};
    case 5:
      return {0, 1, 1, 0, Mm{0}, Mm{0}};
    case 6:
      return {0, 1, -1, 0, Mm{1}, Mm{0}};
    case 7:
      return {0, -1, -1, 0, Mm{1}, Mm{1}};
    case 8:
      return {0, -1, 1, 0, Mm{0}, Mm{1}};
    default:
      return {};
  }
}

/// Draws the whole placeholder on the current unit square.
void paint_unit(cairo_t* cr, cairo_surface_t* surface, int width, int height) {
  cairo_scale(cr, 1.0 / width, 1.0 / height);
  cairo_set_source_surface(cr, surface, 0, 0);
  cairo_paint(cr);
}

std::shared_ptr<PreparedImage> flat_base(const Mask& mask, Colour colour) {
  const int row = (mask.width + 7) / 8;
  const std::vector<std::uint8_t> zeros(static_cast<std::size_t>(row) * mask.height, 0);
  auto image = std::make_shared<PreparedImage>();
  image->width = mask.width;
  image->height = mask.height;
  image->bits = 1;
  image->model = ColourModel::rgb;
  image->png_predictor_colours = 1;
  const auto byte = [](double part) {
    return static_cast<std::uint8_t>(std::lround(std::clamp(part, 0.0, 1.0) * 255));
  };
  image->palette = {byte(colour.red), byte(colour.green), byte(colour.blue)};
  image->data = deflate_rows(zeros.data(), mask.height, row, 1);
  return image;
}

/// One colour, as wide and high as the mask, with the mask times the colour's opacity.
std::shared_ptr<const PreparedImage> prepared(Mask mask, Colour colour) {
  const double opacity = std::clamp(colour.alpha, 0.0, 1.0);
  for (std::uint8_t& cover : mask.cover)
    cover = static_cast<std::uint8_t>(std::lround(cover * opacity));
  auto soft = std::make_shared<PreparedImage>();
  soft->width = mask.width;
  soft->height = mask.height;
  soft->model = ColourModel::grey;
  soft->png_predictor_colours = 1;
  soft->data = deflate_rows(mask.cover.data(), mask.height, mask.width, 1);
  std::shared_ptr<PreparedImage> image = flat_base(mask, colour);
  image->soft_mask = std::move(soft);
  return image;
}

}  // namespace

/// One pixel, since the image that takes the place fills the same square: cairo copies the pixels
/// of a source that is let go (a tenth of the time of a small deck when they were as many as the
/// picture's). RGB24, because cairo searches other kinds for clear parts at every use.
cairo_surface_t* PageGround::placeholder(const std::string& key) {
  SurfacePtr& surface = placeholders_[key];
  if (surface) return surface.get();
  surface.reset(cairo_image_surface_create(CAIRO_FORMAT_RGB24, 1, 1));
  if (cairo_surface_status(surface.get()) != CAIRO_STATUS_SUCCESS) throw std::bad_alloc();
  attach(surface.get(), CAIRO_MIME_TYPE_JPEG, placeholder_jpeg(key, 1, 1));
  attach(surface.get(), CAIRO_MIME_TYPE_UNIQUE_ID, key);
  return surface.get();
}

void PageGround::put_raster(cairo_t* cr, const PicturePtr& picture, Rect to) {
  const std::string key = "asset:" + picture->key();
  pictures_.try_emplace(key, picture);
  const Saved saved(cr);
  cairo_translate(cr, to.left().value, to.top().value);
  cairo_scale(cr, to.size.width.value, to.size.height.value);
  const cairo_matrix_t turn = to_cairo(upright(picture->facts().exif_orientation));
  cairo_transform(cr, &turn);
  paint_unit(cr, placeholder(key), 1, 1);
}

PageGround::Recorded PageGround::recording(const PicturePtr& picture, int width, int height) {
  constexpr double same_proportions = 0.02;
  const std::string& key = picture->key();
  for (auto known = recordings_.lower_bound({key, {width, 0}});
       known != recordings_.end() && known->first.first == key; ++known) {
    const auto [w, h] = known->first.second;
    const double stretch = double(w) * height / (double(h) * width);
    if (h >= height && std::abs(stretch - 1) < same_proportions) return {known->second.get(), w, h};
  }
  SurfacePtr& surface = recordings_[{key, {width, height}}];
  const cairo_rectangle_t extents{0, 0, double(width), double(height)};
  surface.reset(cairo_recording_surface_create(CAIRO_CONTENT_COLOR_ALPHA, &extents));
  const CairoPtr cr{cairo_create(surface.get())};
  if (!drawings().draw(cr.get(), *picture, {{}, {Mm{double(width)}, Mm{double(height)}}}))
    report(picture, picture->path() + " cannot be drawn to its end");
  return {surface.get(), width, height};
}

void PageGround::put_drawing(cairo_t* cr, const PicturePtr& picture, Rect to) {
  // In device pixels, so that the renderer's effects come out at 600 ppi.
  double width = to.size.width.value * device_scale(cr);
  double height = to.size.height.value * device_scale(cr);
  const double limited = std::sqrt(width * height / most_pixels);
  if (limited > 1) {
    width /= limited;
    height /= limited;
  }
  const int w = static_cast<int>(std::clamp(std::round(width), 1.0, double(longest_side)));
  const int h = static_cast<int>(std::clamp(std::round(height), 1.0, double(longest_side)));
  const Recorded recorded = recording(picture, w, h);
  const Saved saved(cr);
  cairo_translate(cr, to.left().value, to.top().value);
  cairo_scale(cr, to.size.width.value, to.size.height.value);
  paint_unit(cr, recorded.surface, recorded.width, recorded.height);
}

void PageGround::put_mask(cairo_t* cr, const std::string& key, Rect to, Colour colour,
                          const std::function<Mask()>& make) {
  const std::string name = "made:" + sha256(fmt::format("{} {} {} {} {}", key, colour.red,
                                                        colour.green, colour.blue, colour.alpha));
  std::shared_ptr<const PreparedImage>& image = made_[name];
  if (!image) image = prepared(make(), colour);
  const Saved saved(cr);
  cairo_translate(cr, to.left().value, to.top().value);
  cairo_scale(cr, to.size.width.value, to.size.height.value);
  paint_unit(cr, placeholder(name), 1, 1);
}

}  // namespace quoin
