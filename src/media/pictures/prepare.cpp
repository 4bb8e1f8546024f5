#include "media/pictures/prepare.h"

#include <algorithm>

#include "media/pictures/jpeg.h"
#include "media/pictures/png.h"
#include "media/pictures/row_filter.h"

namespace quoin::pictures {
namespace {

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

/// `count` neighbouring channels of all pixels, starting with `first`, deflated.
Bytes deflated_channels(const Bitmap& bitmap, std::size_t first, std::size_t count) {
  const auto channels = static_cast<std::size_t>(bitmap.channels());
  const auto width = static_cast<std::size_t>(bitmap.width);
  const auto height = static_cast<std::size_t>(bitmap.height);
  RowDeflater deflater(height, width * count, count);
  std::vector<std::uint8_t> row(width * count);
  for (std::size_t y = 0; y < height; ++y) {
    const std::uint8_t* in = bitmap.samples.data() + y * width * channels + first;
    for (std::size_t i = 0; i < row.size(); i += count, in += channels) {
      for (std::size_t c = 0; c < count; ++c) row[i + c] = in[c];
    }
    deflater.add(row.data());
  }
  return deflater.finish();
}

PreparedImage from_channels(const Bitmap& bitmap, int first, int count, ColourModel model) {
  PreparedImage image;
  image.width = bitmap.width;
  image.height = bitmap.height;
  image.model = model;
  image.png_predictor_colours = count;
  image.data =
      deflated_channels(bitmap, static_cast<std::size_t>(first), static_cast<std::size_t>(count));
  return image;
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

PreparedImage deflated(const Bitmap& bitmap) {
  const bool grey = bitmap.model == ColourModel::grey || is_colourless(bitmap);
  PreparedImage image = from_channels(bitmap, 0, grey ? 1 : bitmap.colours(),
                                      grey ? ColourModel::grey : bitmap.model);
  if (!is_opaque(bitmap)) {
    image.soft_mask = std::make_shared<const PreparedImage>(
        from_channels(bitmap, bitmap.colours(), 1, ColourModel::grey));
  }
  image.profile = bitmap.profile;
  return image;
}

}  // namespace quoin::pictures
