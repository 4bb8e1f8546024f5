#include "media/pictures/png_parts.h"

#include <fmt/format.h>
#include <libdeflate.h>

#include <optional>

#include "media/pictures/byte_order.h"
#include "media/pictures/limits.h"

namespace quoin::pictures {
namespace {

constexpr std::size_t signature_bytes = 8;
constexpr std::size_t around_chunk = 12;  // length, name and checksum

struct Chunk {
  std::string_view name, body;
  std::size_t at = 0;  ///< of the chunk in the file
};

/// The chunk at `at`, or what is wrong with it.
Result<Chunk> read_chunk(const SourceFile& file, std::size_t at) {
  const std::string_view bytes = file.bytes;
  const auto ends_early = [&] {
    return damaged(file, fmt::format("it ends at byte {}, before the picture does", bytes.size()));
  };
  if (bytes.size() - at < around_chunk) return ends_early();
  const std::size_t length = big_32(bytes, at);
  if (length > bytes.size() - at - around_chunk) return ends_early();
  const Chunk chunk{bytes.substr(at + 4, 4), bytes.substr(at + 8, length), at};
  const std::uint32_t sum = libdeflate_crc32(0, chunk.name.data(), length + 4);
  if (sum != big_32(bytes, at + 8 + length)) {
    return damaged(file, fmt::format("the checksum of the part at byte {} does not match", at));
  }
  return chunk;
}

bool bits_suit(int bits, int type) {
  switch (type) {
    case PngParts::grey:
      return bits == 1 || bits == 2 || bits == 4 || bits == 8 || bits == 16;
    case PngParts::palette:
      return bits == 1 || bits == 2 || bits == 4 || bits == 8;
    case PngParts::rgb:
    case PngParts::grey_alpha:
    case PngParts::rgb_alpha:
      return bits == 8 || bits == 16;
    default:
      return false;
  }
}

Outcome read_header(const SourceFile& file, const Chunk& chunk, PngParts& parts) {
  constexpr std::size_t header_bytes = 13;
  if (chunk.name != "IHDR" || chunk.body.size() != header_bytes) {
    return damaged(file, "it does not start with a header");
  }
  const std::string_view body = chunk.body;
  Outcome size = check_size(file, big_32(body, 0), big_32(body, 4));
  if (!size) return size;
  parts.width = static_cast<int>(big_32(body, 0));
  parts.height = static_cast<int>(big_32(body, 4));
  parts.bits = static_cast<int>(byte_at(body, 8));
  const int type = static_cast<int>(byte_at(body, 9));
  if (!bits_suit(parts.bits, type)) {
    return damaged(file, fmt::format("its header asks for {} bits of colour type {}, which PNG "
                                     "does not have",
                                     parts.bits, type));
  }
  parts.type = static_cast<PngParts::ColourType>(type);
  if (body[10] != 0 || body[11] != 0 || byte_at(body, 12) > 1) {
    return unusual(file, "as a PNG with a compression of another kind");
  }
  parts.interlaced = body[12] == 1;
  if (unpacked_bytes(parts) > most_unpacked) {
    Diagnostic d = about(Id::picture_too_large, file,
                         fmt::format("takes {} MiB unpacked; {} MiB are read at most",
                                     unpacked_bytes(parts) >> 20, most_unpacked >> 20));
    return d.hint("save it smaller, or with 8 bits a channel");
  }
  return Done{};
}

/// Takes a chunk other than header, data and end; unknown ones are left alone, as PNG wants it,
/// unless they say that nobody who does not know them may go on.
Outcome read_other(const SourceFile& file, const Chunk& chunk, PngParts& parts) {
  if (chunk.name == "PLTE")
    parts.colours = chunk.body;
  else if (chunk.name == "tRNS")
    parts.transparency = chunk.body;
  else if (chunk.name == "iCCP")
    parts.profile = chunk.body;
  else if (chunk.name == "eXIf")
    parts.exif = chunk.body;
  else if (chunk.name == "sRGB")
    parts.is_srgb = true;
  else if (chunk.name == "acTL")
    parts.is_animated = true;
  else if (chunk.name == "gAMA" && chunk.body.size() == 4)
    parts.gamma = big_32(chunk.body, 0) / 1e5;
  else if (chunk.name[0] >= 'A' && chunk.name[0] <= 'Z') {
    return unusual(file, fmt::format("as a PNG with a part of its own at byte {}", chunk.at));
  }
  return Done{};
}

/// What must hold once all chunks are known.
Outcome check_whole(const SourceFile& file, PngParts& parts) {
  if (parts.data.empty()) return damaged(file, "there are no pixels in it");
  if (parts.type == PngParts::palette) {
    const std::size_t colours = parts.colours.size() / 3;
    if (colours == 0 || colours > 256 || parts.colours.size() % 3 != 0) {
      return damaged(file, "it has no sound palette although its pixels need one");
    }
    if (parts.transparency.size() > colours) parts.transparency = {};
  }
  const bool key_suits = (parts.type == PngParts::grey && parts.transparency.size() == 2) ||
                         (parts.type == PngParts::rgb && parts.transparency.size() == 6);
  if (parts.type != PngParts::palette && !key_suits) parts.transparency = {};
  if (parts.is_srgb || !parts.profile.empty()) parts.gamma = 0;
  return Done{};
}

}  // namespace

int PngParts::channels() const {
  switch (type) {
    case grey:
    case palette:
      return 1;
    case grey_alpha:
      return 2;
    case rgb:
      return 3;
    case rgb_alpha:
      return 4;
  }
  return 1;
}

ColourModel PngParts::model() const {
  return type == grey || type == grey_alpha ? ColourModel::grey : ColourModel::rgb;
}

std::size_t PngParts::row_bytes(int pixels) const {
  return (static_cast<std::size_t>(pixels) * static_cast<std::size_t>(channels() * bits) + 7) / 8;
}

std::size_t PngParts::step() const {
  return std::max<std::size_t>(1, static_cast<std::size_t>(channels() * bits) / 8);
}

std::vector<PngPass> passes(const PngParts& parts) {
  std::vector<PngPass> all = {{0, 0, 1, 1}};
  if (parts.interlaced) {
    all = {{0, 0, 8, 8}, {4, 0, 8, 8}, {0, 4, 4, 8}, {2, 0, 4, 4},
           {0, 2, 2, 4}, {1, 0, 2, 2}, {0, 1, 1, 2}};
  }
  for (PngPass& p : all) {
    p.columns = std::max(0, (parts.width - p.x0 + p.dx - 1) / p.dx);
    p.rows = std::max(0, (parts.height - p.y0 + p.dy - 1) / p.dy);
  }
  return all;
}

std::size_t unpacked_bytes(const PngParts& parts) {
  std::size_t total = 0;
  for (const PngPass& p : passes(parts)) {
    if (p.columns > 0) total += (parts.row_bytes(p.columns) + 1) * std::size_t(p.rows);
  }
  return total;
}

Result<PngParts> read_png_parts(const SourceFile& file) {
  PngParts parts;
  bool has_header = false;
  for (std::size_t at = signature_bytes;;) {
    Result<Chunk> chunk = read_chunk(file, at);
    if (!chunk) return std::move(chunk).why();
    at += around_chunk + chunk->body.size();
    Outcome taken = Done{};
    if (!has_header)
      taken = read_header(file, *chunk, parts);
    else if (chunk->name == "IEND")
      break;
    else if (chunk->name == "IDAT")
      parts.data.push_back(chunk->body);
    else
      taken = read_other(file, *chunk, parts);
    if (!taken) return std::move(taken).why();
    has_header = true;
  }
  Outcome whole = check_whole(file, parts);
  if (!whole) return std::move(whole).why();
  return parts;
}

}  // namespace quoin::pictures
