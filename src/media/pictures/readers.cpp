#include "media/pictures/readers.h"

#include <algorithm>
#include <stdexcept>

#include "media/pictures/jpeg.h"
#include "media/pictures/png.h"
#include "media/pictures/tiff.h"
#include "media/pictures/webp.h"

namespace quoin::pictures {

Result<FirstLook> look_at_raster(const SourceFile& file, PictureFormat format) {
  switch (format) {
    case PictureFormat::png:
      return look_at_png(file);
    case PictureFormat::jpeg:
      return look_at_jpeg(file);
    case PictureFormat::webp:
      return look_at_webp(file);
    case PictureFormat::tiff:
      return look_at_tiff(file);
    case PictureFormat::svg:
      break;
  }
  throw std::logic_error("an SVG is no raster picture");
}

Result<Bitmap> decode_raster(const SourceFile& file, PictureFormat format) {
  switch (format) {
    case PictureFormat::png:
      return decode_png(file);
    case PictureFormat::jpeg:
      return decode_jpeg(file);
    case PictureFormat::webp:
      return decode_webp(file);
    case PictureFormat::tiff:
      return decode_tiff(file);
    case PictureFormat::svg:
      break;
  }
  throw std::logic_error("an SVG has no pixels to decode");
}

Result<Bitmap> decode_raster(const SourceFile& file, PictureFormat format, int halvings) {
  if (format != PictureFormat::jpeg) return decode_raster(file, format);
  return decode_jpeg(file, 8U >> std::clamp(halvings, 0, 3));
}

}  // namespace quoin::pictures
