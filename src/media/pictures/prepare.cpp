#include "media/pictures/prepare.h"

#include <algorithm>

#include "media/pictures/jpeg.h"
#include "media/pictures/png.h"

namespace quoin::pictures {
namespace {

using Plane = std::vector<std::uint8_t>;

bool is_opaque(const Bitmap& bitmap) {
  if (!bitmap.has_alpha) return true;
  const auto channels = static_cast<std::size_t>(bitmap.channels());
  for (std::size_t i = channels - 1; i < bitmap.samples.size(); i += channels) {
    if (bitmap.samples[i] != 255) return false;
  }
  return true;
}

bool is_colourless(const Bitmap& bitmap) {
  if (bitmap.model != ColourModel::rgb || !bitmap.profile.empty()) return false;
  const auto channels = static_cast<std::size_t>(bitmap.channels());
  for (std::size_t i = 0; i + 2 < bitmap.samples.size(); i += channels) {
    const std::uint8_t* p = bitmap.samples.data() + i;
    if (p[0] != p[1] || p[0] != p[2]) return false;
  }
  return true;
}

/// `count` neighbouring channels of each pixel, starting with `first`.
Plane channels_of(const Bitmap& bitmap, std::size_t first, std::size_t count) {
  const auto step = static_cast<std::size_t>(bitmap.channels());
  Plane plane(bitmap.pixel_count() * count);
  const std::uint8_t* in = bitmap.samples.data() + first;
  for (std::size_t i = 0; i < plane.size(); i += count, in += step) {
    for (std::size_t c = 0; c < count; ++c) plane[i + c] = in[c];
  }
  return plane;
}

PreparedImage from_plane(const Bitmap& bitmap, const Plane& plane, ColourModel model,
                         int channels) {
  PreparedImage image;
  image.width = bitmap.width;
  image.height = bitmap.height;
  image.model = model;
  image.png_predictor_colours = channels;
  image.data = deflate_rows(plane.data(), bitmap.height, bitmap.width * channels, channels);
  return image;
}

PreparedImage colours_of(const Bitmap& bitmap) {
  const bool grey = bitmap.model == ColourModel::grey || is_colourless(bitmap);
  const ColourModel model = grey ? ColourModel::grey : bitmap.model;
  const int channels = grey ? 1 : bitmap.colours();
  if (channels == bitmap.channels()) return from_plane(bitmap, bitmap.samples, model, channels);
  return from_plane(bitmap, channels_of(bitmap, 0, static_cast<std::size_t>(channels)), model,
                    channels);
}

}  // namespace

Result<std::optional<PreparedImage>> as_stored(const SourceFile& file, PictureFormat format) {
  if (format == PictureFormat::png) return png_as_stored(file);
  if (format == PictureFormat::jpeg) return jpeg_as_stored(file);
  return std::optional<PreparedImage>();
}

Result<std::optional<PreparedImage>> known_as_stored(const SourceFile& file, PictureFormat format) {
  if (format == PictureFormat::png) return known_png_as_stored(file);
  if (format == PictureFormat::jpeg) return known_jpeg_as_stored(file);
  return std::optional<PreparedImage>();
}

PreparedImage deflated(Bitmap bitmap) {
  PreparedImage image = colours_of(bitmap);
  if (!is_opaque(bitmap)) {
    const auto alpha = static_cast<std::size_t>(bitmap.colours());
    image.soft_mask = std::make_shared<const PreparedImage>(
        from_plane(bitmap, channels_of(bitmap, alpha, 1), ColourModel::grey, 1));
  }
  image.profile = std::move(bitmap.profile);
  return image;
}

}  // namespace quoin::pictures
