#include "media/pictures/webp.h"

#include <fmt/format.h>
#include <webp/decode.h>

#include <algorithm>
#include <optional>

#include "media/pictures/byte_order.h"
#include "media/pictures/exif.h"
#include "media/pictures/icc.h"

namespace quoin::pictures {
namespace {

constexpr std::size_t riff_header = 12, chunk_header = 8, frame_header = 16;

/// The parts of the file, and where its first frame lies on the canvas.
struct WebpParts {
  int width = 0, height = 0;  ///< of the canvas
  int frame_x = 0, frame_y = 0, frame_width = 0, frame_height = 0;
  bool is_animated = false;
  bool has_alpha = false;
  std::string_view profile, exif;
  std::string_view coded;  ///< what the decoder takes: the file, or the frame's own parts
};

struct Chunk {
  std::string_view name, body;
};

const std::uint8_t* bytes_of(std::string_view s) {
  return reinterpret_cast<const std::uint8_t*>(s.data());
}

/// The chunks between `at` and the end that the container gives.
Result<std::vector<Chunk>> read_chunks(const SourceFile& file) {
  const std::string_view all = file.bytes;
  if (all.size() < riff_header + chunk_header) return damaged(file, "it ends in its header");
  const std::size_t end = std::size_t{little_32(all, 4)} + chunk_header;
  if (end > all.size()) {
    return damaged(file, fmt::format("it ends at byte {} of {}", all.size(), end));
  }
  std::vector<Chunk> chunks;
  for (std::size_t at = riff_header; at + chunk_header <= end;) {
    const std::size_t length = little_32(all, at + 4);
    if (length > end - at - chunk_header) {
      return damaged(file, fmt::format("the part at byte {} is longer than the file", at));
    }
    chunks.push_back({all.substr(at, 4), all.substr(at + chunk_header, length)});
    at += chunk_header + length + length % 2;
  }
  return chunks;
}

void take_frame(std::string_view body, WebpParts& parts) {
  parts.frame_x = static_cast<int>(2 * little_24(body, 0));
  parts.frame_y = static_cast<int>(2 * little_24(body, 3));
  parts.coded = body.substr(frame_header);
}

Outcome take_chunk(const SourceFile& file, const Chunk& chunk, WebpParts& parts) {
  if (chunk.name == "VP8X" && chunk.body.size() >= 10) {
    parts.width = static_cast<int>(little_24(chunk.body, 4)) + 1;
    parts.height = static_cast<int>(little_24(chunk.body, 7)) + 1;
    return check_size(file, parts.width, parts.height);
  }
  if (chunk.name == "ICCP") parts.profile = chunk.body;
  if (chunk.name == "EXIF") parts.exif = chunk.body;
  if (chunk.name == "ANMF" && !parts.is_animated) {
    parts.is_animated = true;
    if (chunk.body.size() <= frame_header) return damaged(file, "its first frame is empty");
    take_frame(chunk.body, parts);
  }
  return Done{};
}

/// Some programs write the block with the header that it has in a JPEG.
std::string_view without_jpeg_header(std::string_view exif) {
  return exif.starts_with("Exif") && exif.size() > 6 ? exif.substr(6) : exif;
}

Result<WebpParts> read_webp_parts(const SourceFile& file) {
  const Result<std::vector<Chunk>> chunks = read_chunks(file);
  if (!chunks) return chunks.why();
  WebpParts parts;
  parts.coded = file.bytes;
  for (const Chunk& chunk : *chunks) {
    Outcome taken = take_chunk(file, chunk, parts);
    if (!taken) return std::move(taken).why();
  }
  WebPBitstreamFeatures features;
  const VP8StatusCode status =
      WebPGetFeatures(bytes_of(parts.coded), parts.coded.size(), &features);
  if (status != VP8_STATUS_OK) return damaged(file, "its header is not sound");
  Outcome size = check_size(file, features.width, features.height);
  if (!size) return std::move(size).why();
  parts.frame_width = features.width;
  parts.frame_height = features.height;
  if (!parts.is_animated || parts.width == 0) {
    parts.width = features.width;
    parts.height = features.height;
  }
  if (parts.frame_x > parts.width - parts.frame_width ||
      parts.frame_y > parts.height - parts.frame_height) {
    return damaged(file, "its first frame lies outside the picture");
  }
  const bool covers_all = parts.frame_width == parts.width && parts.frame_height == parts.height;
  parts.has_alpha = features.has_alpha != 0 || !covers_all;
  parts.exif = without_jpeg_header(parts.exif);
  return parts;
}

}  // namespace

Result<FirstLook> look_at_webp(const SourceFile& file) {
  const Result<WebpParts> parts = read_webp_parts(file);
  if (!parts) return parts.why();
  FirstLook look;
  PictureFacts& facts = look.facts;
  facts.format = PictureFormat::webp;
  facts.exif_orientation = exif_orientation(parts->exif);
  const bool sideways = turns_sideways(facts.exif_orientation);
  facts.width = sideways ? parts->height : parts->width;
  facts.height = sideways ? parts->width : parts->height;
  facts.has_alpha = parts->has_alpha;
  note_profile(fitting_profile(file, Bytes(parts->profile), facts.model, look.remarks), facts);
  if (parts->is_animated) look.remarks.push_back(only_the_first(file, "an animation", "frame"));
  return look;
}

Result<Bitmap> decode_webp(const SourceFile& file) {
  const Result<WebpParts> parts = read_webp_parts(file);
  if (!parts) return parts.why();
  Bitmap bitmap;
  bitmap.width = parts->width;
  bitmap.height = parts->height;
  bitmap.has_alpha = parts->has_alpha;
  Diagnostics said_when_opened;
  bitmap.profile = fitting_profile(file, Bytes(parts->profile), bitmap.model, said_when_opened);
  const auto stride = static_cast<std::size_t>(bitmap.width * bitmap.channels());
  bitmap.samples.resize(stride * static_cast<std::size_t>(bitmap.height));
  const std::size_t start = static_cast<std::size_t>(parts->frame_y) * stride +
                            static_cast<std::size_t>(parts->frame_x * bitmap.channels());
  const auto decode = bitmap.has_alpha ? WebPDecodeRGBAInto : WebPDecodeRGBInto;
  const std::uint8_t* done =
      decode(bytes_of(parts->coded), parts->coded.size(), bitmap.samples.data() + start,
             bitmap.samples.size() - start, static_cast<int>(stride));
  if (done == nullptr) return damaged(file, "its pixel data is cut short or garbled");
  return bitmap;
}

}  // namespace quoin::pictures
