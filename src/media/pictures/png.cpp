#include "media/pictures/png.h"

#include <fmt/format.h>
#include <libdeflate.h>

#include <cmath>
#include <cstring>
#include <memory>

#include "media/pictures/byte_order.h"
#include "media/pictures/exif.h"
#include "media/pictures/icc.h"
#include "media/pictures/inflate.h"
#include "media/pictures/png_parts.h"
#include "media/pictures/png_rows.h"

namespace quoin::pictures {
namespace {

using Rows = std::vector<std::uint8_t>;

Bytes joined(const std::vector<std::string_view>& parts) {
  Bytes all;
  std::size_t bytes = 0;
  for (const std::string_view part : parts) bytes += part.size();
  all.reserve(bytes);
  for (const std::string_view part : parts) all += part;
  return all;
}

/// The profile of an iCCP chunk: a name, a zero, the method 0, a zlib stream.
Bytes unpacked_profile(std::string_view chunk) {
  const std::size_t end_of_name = chunk.find('\0');
  if (end_of_name == chunk.npos || chunk.size() < end_of_name + 2) return {};
  return inflate_unknown_size(chunk.substr(end_of_name + 2));
}

/// The embedded profile if it can be used; says so when it cannot.
Bytes profile_of(const SourceFile& file, const PngParts& parts, Diagnostics& remarks) {
  if (!parts.profile.empty()) {
    Bytes profile = unpacked_profile(parts.profile);
    if (profile.empty()) profile = "damaged";
    return fitting_profile(file, std::move(profile), parts.model(), remarks);
  }
  constexpr double srgb_gamma = 0.45455, tolerance = 0.02;
  if (parts.gamma > 0 && std::abs(parts.gamma - srgb_gamma) > tolerance) {
    Diagnostic d =
        about(Id::picture_profile_not_used, file,
              fmt::format("is printed as plain sRGB: it asks for gamma {:.4g} and has no "
                          "colour profile",
                          parts.gamma));
    remarks.push_back(d.hint("convert the picture to sRGB in the program that drew it"));
  }
  return {};
}

/// All rows, still filtered, in a buffer of exactly their size.
Result<Rows> inflated_rows(const SourceFile& file, const PngParts& parts, std::string_view data) {
  std::optional<Rows> rows = inflate(data, unpacked_bytes(parts));
  if (!rows || rows->size() != unpacked_bytes(parts)) {
    return damaged(
        file, fmt::format("its pixel data does not hold the {} rows that it should", parts.height));
  }
  return std::move(*rows);
}

/// Whether each row of the passes starts with one of PNG's five filter numbers.
bool filters_are_known(const PngParts& parts, const Rows& rows) {
  std::size_t at = 0;
  for (const PngPass& pass : passes(parts)) {
    for (int y = 0; pass.columns > 0 && y < pass.rows; ++y) {
      if (rows[at] > 4) return false;
      at += parts.row_bytes(pass.columns) + 1;
    }
  }
  return true;
}

/// Reads sample `index` of an unfiltered row: 1, 2, 4, 8 or 16 bits.
std::uint32_t sample(const std::uint8_t* row, std::size_t index, int bits) {
  if (bits == 8) return row[index];
  if (bits == 16) return std::uint32_t{row[2 * index]} << 8 | row[2 * index + 1];
  const std::size_t bit = index * static_cast<std::size_t>(bits);
  return std::uint32_t{row[bit / 8]} >> (8 - bits - static_cast<int>(bit % 8)) & ((1U << bits) - 1);
}

/// Any depth to 8 bits, rounded to the nearest.
std::uint8_t to_8_bits(std::uint32_t value, int bits) {
  if (bits == 8) return static_cast<std::uint8_t>(value);
  const std::uint32_t most = (1U << bits) - 1;
  return static_cast<std::uint8_t>((value * 255 + most / 2) / most);
}

/// Writes the pixels of unfiltered rows into a bitmap.
class PixelWriter {
 public:
  PixelWriter(const PngParts& parts, Bitmap& bitmap)
      : parts_(parts), bitmap_(bitmap), channels_(static_cast<std::size_t>(parts.channels())) {
    for (std::size_t c = 0; 2 * c + 1 < parts.transparency.size(); ++c) {
      key_.push_back(big_16(parts.transparency, 2 * c));
    }
  }

  void row(const PngPass& pass, int y, const std::uint8_t* bytes) {
    const std::size_t at = std::size_t(pass.y0 + y * pass.dy) * std::size_t(parts_.width);
    const auto out_channels = static_cast<std::size_t>(bitmap_.channels());
    for (std::size_t x = 0; x < std::size_t(pass.columns); ++x) {
      std::uint8_t* out = bitmap_.samples.data() +
                          (at + std::size_t(pass.x0) + x * std::size_t(pass.dx)) * out_channels;
      if (parts_.type == PngParts::palette)
        put_indexed(sample(bytes, x, parts_.bits), out);
      else
        put_samples(bytes, x, out);
    }
  }

 private:
  /// An index past the palette's end is black, as most readers of PNG have it.
  void put_indexed(std::size_t index, std::uint8_t* out) const {
    for (std::size_t c = 0; c < 3; ++c) {
      const std::size_t at = 3 * index + c;
      out[c] = at < parts_.colours.size() ? std::uint8_t(parts_.colours[at]) : std::uint8_t{0};
    }
    if (!bitmap_.has_alpha) return;
    const bool listed = index < parts_.transparency.size();
    out[3] = listed ? std::uint8_t(parts_.transparency[index]) : std::uint8_t{255};
  }

  void put_samples(const std::uint8_t* bytes, std::size_t x, std::uint8_t* out) const {
    bool is_key = !key_.empty();
    for (std::size_t c = 0; c < channels_; ++c) {
      const std::uint32_t value = sample(bytes, x * channels_ + c, parts_.bits);
      out[c] = to_8_bits(value, parts_.bits);
      is_key = is_key && value == key_[c];
    }
    if (!key_.empty()) out[channels_] = is_key ? 0 : 255;
  }

  const PngParts& parts_;
  Bitmap& bitmap_;
  std::size_t channels_;
  std::vector<std::uint32_t> key_;  // tRNS of grey or RGB: the one colour that is transparent
};

/// Undoes the filters of all passes in place and hands each row on.
void read_rows(const PngParts& parts, Rows& rows, PixelWriter& writer) {
  std::uint8_t* at = rows.data();
  for (const PngPass& pass : passes(parts)) {
    const std::size_t bytes = parts.row_bytes(pass.columns);
    const std::vector<std::uint8_t> nothing(bytes, 0);
    const std::uint8_t* above = nothing.data();
    for (int y = 0; pass.columns > 0 && y < pass.rows; ++y) {
      undo_filter(at[0], at + 1, above, bytes, parts.step());
      writer.row(pass, y, at + 1);
      above = at + 1;
      at += bytes + 1;
    }
  }
}

/// Whether the rows are a bitmap's samples once their filter bytes are gone.
bool rows_are_samples(const PngParts& parts) {
  return parts.bits == 8 && !parts.interlaced && parts.transparency.empty() &&
         parts.type != PngParts::palette;
}

/// Undoes the filters in place and closes the gaps that the filter bytes leave.
void close_rows(const PngParts& parts, Rows& rows) {
  const std::size_t bytes = parts.row_bytes(parts.width);
  const Rows nothing(bytes, 0);
  const std::uint8_t* above = nothing.data();
  std::uint8_t* to = rows.data();
  for (const std::uint8_t* from = rows.data(); from < rows.data() + rows.size();
       from += bytes + 1, to += bytes) {
    const int filter = from[0];
    std::memmove(to, from + 1, bytes);
    undo_filter(filter, to, above, bytes, parts.step());
    above = to;
  }
  rows.resize(bytes * static_cast<std::size_t>(parts.height));
}

bool pdf_reads_it(const PngParts& parts) { return !parts.interlaced && !parts.has_alpha(); }

PreparedImage as_stored(const PngParts& parts, Bytes data, Bytes profile) {
  PreparedImage image;
  image.width = parts.width;
  image.height = parts.height;
  image.bits = parts.bits;
  image.model = parts.model();
  image.png_predictor_colours = parts.channels();
  image.data = std::move(data);
  image.profile = std::move(profile);
  if (parts.type == PngParts::palette) {
    // Filled up with black, so that an index past the end means the same to every reader.
    image.palette.assign(parts.colours.begin(), parts.colours.end());
    image.palette.resize(std::size_t{3} << parts.bits, 0);
  }
  return image;
}

}  // namespace

Result<FirstLook> look_at_png(const SourceFile& file) {
  Result<PngParts> parts = read_png_parts(file);
  if (!parts) return std::move(parts).why();
  FirstLook look;
  PictureFacts& facts = look.facts;
  facts.format = PictureFormat::png;
  facts.exif_orientation = exif_orientation(parts->exif);
  const bool sideways = turns_sideways(facts.exif_orientation);
  facts.width = sideways ? parts->height : parts->width;
  facts.height = sideways ? parts->width : parts->height;
  facts.model = parts->model();
  facts.bits = parts->bits;
  facts.has_alpha = parts->has_alpha();
  note_profile(profile_of(file, *parts, look.remarks), facts);
  if (parts->is_animated) look.remarks.push_back(only_the_first(file, "an animation", "frame"));
  return look;
}

Result<Bitmap> decode_png(const SourceFile& file) {
  Result<PngParts> parts = read_png_parts(file);
  if (!parts) return std::move(parts).why();
  Result<Rows> rows = inflated_rows(file, *parts, joined(parts->data));
  if (!rows) return std::move(rows).why();
  if (!filters_are_known(*parts, *rows)) return damaged(file, "its rows are garbled");
  Bitmap bitmap;
  bitmap.width = parts->width;
  bitmap.height = parts->height;
  bitmap.model = parts->model();
  bitmap.has_alpha = parts->has_alpha();
  Diagnostics said_when_opened;
  bitmap.profile = profile_of(file, *parts, said_when_opened);
  if (rows_are_samples(*parts)) {
    close_rows(*parts, *rows);
    bitmap.samples = std::move(*rows);
    return bitmap;
  }
  bitmap.samples.resize(bitmap.pixel_count() * static_cast<std::size_t>(bitmap.channels()));
  PixelWriter writer(*parts, bitmap);
  read_rows(*parts, *rows, writer);
  return bitmap;
}

Result<std::optional<PreparedImage>> known_png_as_stored(const SourceFile& file) {
  Result<PngParts> parts = read_png_parts(file);
  if (!parts) return std::move(parts).why();
  if (!pdf_reads_it(*parts)) return std::optional<PreparedImage>();
  Diagnostics said_when_opened;
  return std::optional(
      as_stored(*parts, joined(parts->data), profile_of(file, *parts, said_when_opened)));
}

Result<std::optional<PreparedImage>> png_as_stored(const SourceFile& file) {
  Result<PngParts> parts = read_png_parts(file);
  if (!parts) return std::move(parts).why();
  if (!pdf_reads_it(*parts)) return std::optional<PreparedImage>();
  const Result<Rows> rows = inflated_rows(file, *parts, joined(parts->data));
  if (!rows) return rows.why();
  if (!filters_are_known(*parts, *rows)) return damaged(file, "its rows are garbled");
  return known_png_as_stored(file);
}

}  // namespace quoin::pictures
