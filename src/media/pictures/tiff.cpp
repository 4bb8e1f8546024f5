#include "media/pictures/tiff.h"

#include <fmt/format.h>

#include <algorithm>
#include <memory>
#include <optional>

#include "media/pictures/exif.h"
#include "media/pictures/icc.h"
#include "media/pictures/limits.h"
#include "media/pictures/tiff_file.h"
#include "media/pictures/tiff_inks.h"

namespace quoin::pictures {
namespace {

/// The first page's directory, as far as it matters here.
struct Page {
  int width = 0, height = 0;
  int bits = 8, channels = 1;
  std::uint16_t photometric = 0;
  int orientation = 1;
  bool has_alpha = false;
  Bytes profile;

  [[nodiscard]] ColourModel model() const {
    switch (photometric) {
      case PHOTOMETRIC_MINISBLACK:
      case PHOTOMETRIC_MINISWHITE:
        return ColourModel::grey;
      case PHOTOMETRIC_SEPARATED:
        return ColourModel::cmyk;
      default:
        return ColourModel::rgb;
    }
  }
};

std::string with_words(std::string_view reason, const TiffFile& tiff) {
  return tiff.complaint().empty() ? std::string(reason)
                                  : fmt::format("{} ({})", reason, tiff.complaint());
}

Bytes profile_of(const TiffFile& tiff) {
  std::uint32_t length = 0;
  void* bytes = nullptr;
  if (TIFFGetField(tiff.handle(), TIFFTAG_ICCPROFILE, &length, &bytes) != 1) return {};
  return length > largest_profile ? "too large" : Bytes(static_cast<const char*>(bytes), length);
}

bool first_extra_is_alpha(const TiffFile& tiff) {
  std::uint16_t count = 0;
  std::uint16_t* kinds = nullptr;
  TIFFGetFieldDefaulted(tiff.handle(), TIFFTAG_EXTRASAMPLES, &count, &kinds);
  return count > 0 && (kinds[0] == EXTRASAMPLE_ASSOCALPHA || kinds[0] == EXTRASAMPLE_UNASSALPHA);
}

Result<Page> read_page(const SourceFile& file, const TiffFile& tiff) {
  if (tiff.handle() == nullptr)
    return damaged(file, with_words("its directory is not sound", tiff));
  const auto width = tiff.field<std::uint32_t>(TIFFTAG_IMAGEWIDTH);
  const auto height = tiff.field<std::uint32_t>(TIFFTAG_IMAGELENGTH);
  Outcome size = check_size(file, width, height);
  if (!size) return std::move(size).why();
  Page page;
  page.width = static_cast<int>(width);
  page.height = static_cast<int>(height);
  page.bits = tiff.field<std::uint16_t>(TIFFTAG_BITSPERSAMPLE, 1);
  page.channels = tiff.field<std::uint16_t>(TIFFTAG_SAMPLESPERPIXEL, 1);
  page.photometric = tiff.field<std::uint16_t>(TIFFTAG_PHOTOMETRIC);
  const auto orientation = tiff.field<std::uint16_t>(TIFFTAG_ORIENTATION, 1);
  page.orientation = orientation >= 1 && orientation <= 8 ? orientation : 1;
  page.has_alpha = first_extra_is_alpha(tiff) && page.model() != ColourModel::cmyk;
  page.profile = profile_of(tiff);
  return page;
}

/// Whether every strip or tile lies in the file.
Outcome check_places(const SourceFile& file, const TiffFile& tiff) {
  TIFF* handle = tiff.handle();
  const bool tiled = TIFFIsTiled(handle) != 0;
  const std::uint32_t count = tiled ? TIFFNumberOfTiles(handle) : TIFFNumberOfStrips(handle);
  constexpr std::uint32_t most_places = 4'000'000;
  if (count == 0 || count > most_places) return damaged(file, "it has no sound list of its strips");
  for (std::uint32_t i = 0; i < count; ++i) {
    int failed = 0;
    const std::uint64_t at = TIFFGetStrileOffsetWithErr(handle, i, &failed);
    const std::uint64_t bytes = TIFFGetStrileByteCountWithErr(handle, i, &failed);
    if (failed != 0 || at > file.bytes.size() || bytes > file.bytes.size() - at) {
      return damaged(file, fmt::format("part {} of its {} parts lies beyond its end at byte {}",
                                       i + 1, count, file.bytes.size()));
    }
  }
  return Done{};
}

/// Whether there is a way to decode the page.
Outcome check_storage(const SourceFile& file, const TiffFile& tiff, const Page& page) {
  const auto compression = tiff.field<std::uint16_t>(TIFFTAG_COMPRESSION, COMPRESSION_NONE);
  if (TIFFIsCODECConfigured(compression) == 0) {
    return unusual(file, fmt::format("as a TIFF with compression {}", compression));
  }
  if (page.photometric == PHOTOMETRIC_SEPARATED) {
    if (can_read_inks(tiff)) return Done{};
    return unusual(file,
                   fmt::format("as a TIFF of {} inks with {} bits each", page.channels, page.bits));
  }
  char why[1024] = {};
  if (TIFFRGBAImageOK(tiff.handle(), why) != 0) return Done{};
  Diagnostic d = unusual(
      file, fmt::format("as a TIFF of {} channels with {} bits each", page.channels, page.bits));
  return d.detail(fmt::format("the decoder says: {}", why));
}

/// The profile where it can be used: not for colours that the decoder has turned into RGB itself.
Bytes usable_profile(const SourceFile& file, const Page& page, Diagnostics& remarks) {
  const bool colours_are_stored =
      page.photometric != PHOTOMETRIC_CIELAB && page.photometric != PHOTOMETRIC_ICCLAB &&
      page.photometric != PHOTOMETRIC_LOGL && page.photometric != PHOTOMETRIC_LOGLUV;
  if (!colours_are_stored) return {};
  return fitting_profile(file, page.profile, page.model(), remarks);
}

/// A premultiplied channel back to its own value.
std::uint8_t straight(std::uint32_t value, std::uint32_t alpha) {
  if (alpha == 0) return 0;
  return static_cast<std::uint8_t>(std::min<std::uint32_t>(255, (value * 255 + alpha / 2) / alpha));
}

/// One of libtiff's packed pixels to the channels of the bitmap.
void unpack(std::uint32_t pixel, const Bitmap& bitmap, std::uint8_t* out) {
  const std::uint32_t alpha = bitmap.has_alpha ? TIFFGetA(pixel) : 255;
  const std::uint32_t channels[3] = {TIFFGetR(pixel), TIFFGetG(pixel), TIFFGetB(pixel)};
  for (int c = 0; c < bitmap.colours(); ++c) out[c] = straight(channels[c], alpha);
  if (bitmap.has_alpha) out[bitmap.colours()] = static_cast<std::uint8_t>(alpha);
}

/// libtiff's own orientation without a turn: rows from the top or the bottom as they are stored.
int as_stored(int orientation) { return orientation > 4 ? orientation - 4 : orientation; }

Outcome read_rgba(const SourceFile& file, const TiffFile& tiff, const Page& page, Bitmap& bitmap) {
  std::vector<std::uint32_t> packed(bitmap.pixel_count());
  const auto width = static_cast<std::uint32_t>(page.width);
  const auto height = static_cast<std::uint32_t>(page.height);
  constexpr int stop_on_error = 1;
  if (TIFFReadRGBAImageOriented(tiff.handle(), width, height, packed.data(),
                                as_stored(page.orientation), stop_on_error) == 0) {
    return damaged(file, with_words("its pixel data is garbled", tiff));
  }
  const auto channels = static_cast<std::size_t>(bitmap.channels());
  for (std::size_t i = 0; i < packed.size(); ++i) {
    unpack(packed[i], bitmap, bitmap.samples.data() + i * channels);
  }
  return Done{};
}

}  // namespace

Result<FirstLook> look_at_tiff(const SourceFile& file) {
  const TiffFile tiff(file.bytes);
  const Result<Page> page = read_page(file, tiff);
  if (!page) return page.why();
  for (const Outcome& check : {check_storage(file, tiff, *page), check_places(file, tiff)}) {
    if (!check) return check.why();
  }
  FirstLook look;
  PictureFacts& facts = look.facts;
  facts.format = PictureFormat::tiff;
  facts.exif_orientation = page->orientation;
  const bool sideways = turns_sideways(page->orientation);
  facts.width = sideways ? page->height : page->width;
  facts.height = sideways ? page->width : page->height;
  facts.model = page->model();
  facts.bits = page->bits;
  facts.has_alpha = page->has_alpha;
  note_profile(usable_profile(file, *page, look.remarks), facts);
  if (TIFFLastDirectory(tiff.handle()) == 0) {
    look.remarks.push_back(only_the_first(file, "a file of several pages", "page"));
  }
  return look;
}

Result<Bitmap> decode_tiff(const SourceFile& file) {
  const TiffFile tiff(file.bytes);
  const Result<Page> page = read_page(file, tiff);
  if (!page) return page.why();
  Bitmap bitmap;
  bitmap.width = page->width;
  bitmap.height = page->height;
  bitmap.model = page->model();
  bitmap.has_alpha = page->has_alpha;
  Diagnostics said_when_opened;
  bitmap.profile = usable_profile(file, *page, said_when_opened);
  bitmap.samples.resize(bitmap.pixel_count() * static_cast<std::size_t>(bitmap.channels()));
  if (bitmap.model == ColourModel::cmyk) {
    if (!read_inks(tiff, bitmap)) {
      return damaged(file, with_words("its pixel data is garbled", tiff));
    }
    return bitmap;
  }
  Outcome read = read_rgba(file, tiff, *page, bitmap);
  if (!read) return std::move(read).why();
  return bitmap;
}

}  // namespace quoin::pictures
