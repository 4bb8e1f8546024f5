// How a prepared image is kept: "QPI1", a CRC-32 of the rest, then numbers of 8 bytes and strings
// with their length before them, all little-endian.
#include "media/pictures/prepared_store.h"

#include <libdeflate.h>

#include "base/packed.h"
#include "media/pictures/byte_order.h"
#include "media/pictures/limits.h"

namespace quoin::pictures {
namespace {

constexpr std::string_view mark = "QPI1";
constexpr std::size_t head = 8;  // mark and checksum

void write(PackedWriter& out, const PreparedImage& image) {
  out.number(static_cast<std::uint64_t>(image.width));
  out.number(static_cast<std::uint64_t>(image.height));
  out.number(static_cast<std::uint64_t>(image.bits));
  out.number(static_cast<std::uint64_t>(image.model));
  out.number(static_cast<std::uint64_t>(image.filter));
  out.number(static_cast<std::uint64_t>(image.png_predictor_colours));
  out.number(image.inverted ? 1 : 0);
  out.string({reinterpret_cast<const char*>(image.palette.data()), image.palette.size()});
  out.string(image.data.view());
  out.string(image.profile);
  out.number(image.soft_mask != nullptr ? 1 : 0);
  if (image.soft_mask != nullptr) write(out, *image.soft_mask);
}

PreparedImage read(PackedReader& in, const std::shared_ptr<const Bytes>& owner, int deepest) {
  PreparedImage image;
  image.width = in.small(1, longest_side);
  image.height = in.small(1, longest_side);
  image.bits = in.small(1, 16);
  image.model = static_cast<ColourModel>(in.small(0, static_cast<int>(ColourModel::cmyk)));
  image.filter = static_cast<PreparedImage::Filter>(in.small(0, 1));
  image.png_predictor_colours = in.small(0, 4);
  image.inverted = in.small(0, 1) == 1;
  const std::string_view palette = in.string();
  image.palette.assign(palette.begin(), palette.end());
  image.data = SharedBytes(owner, in.string());
  image.profile = in.string();
  if (in.small(0, deepest) == 1) {
    image.soft_mask = std::make_shared<const PreparedImage>(read(in, owner, 0));
  }
  return image;
}

std::uint32_t checksum(std::string_view bytes) {
  return libdeflate_crc32(0, bytes.data(), bytes.size());
}

}  // namespace

std::string stored_name(const std::string& picture_key) { return "prepared-1-" + picture_key; }

Bytes store(const StoredImage& stored) {
  PackedWriter body;
  body.number(stored.image ? 1 : 0);
  if (stored.image) write(body, *stored.image);
  const Bytes bytes = body.take();
  Bytes all(mark);
  const std::uint32_t sum = checksum(bytes);
  for (int i = 0; i < 4; ++i) all += static_cast<char>(sum >> (8 * i) & 0xff);
  return all + bytes;
}

std::optional<StoredImage> restore(const std::shared_ptr<const Bytes>& bytes) {
  if (bytes->size() < head || !bytes->starts_with(mark)) return std::nullopt;
  const std::string_view body = std::string_view(*bytes).substr(head);
  if (checksum(body) != little_32(*bytes, mark.size())) return std::nullopt;
  PackedReader in(body);
  StoredImage stored;
  if (in.small(0, 1) == 1) stored.image = read(in, bytes, 1);
  if (!in.ended_well()) return std::nullopt;
  return stored;
}

}  // namespace quoin::pictures
