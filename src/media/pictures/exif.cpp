#include "media/pictures/exif.h"

#include "media/pictures/byte_order.h"

namespace quoin::pictures {
namespace {

constexpr std::uint32_t orientation_tag = 0x0112;
constexpr std::uint32_t short_type = 3;

struct Reader {
  std::string_view block;
  bool little = false;
  [[nodiscard]] std::uint32_t u16(std::size_t at) const {
    return little ? little_16(block, at) : big_16(block, at);
  }
  [[nodiscard]] std::uint32_t u32(std::size_t at) const {
    return little ? little_32(block, at) : big_32(block, at);
  }
  [[nodiscard]] bool has(std::size_t at, std::size_t count) const {
    return at <= block.size() && count <= block.size() - at;
  }
};

}  // namespace

int exif_orientation(std::string_view tiff_block) {
  if (tiff_block.size() < 8) return 1;
  const std::string_view order = tiff_block.substr(0, 2);
  if (order != "II" && order != "MM") return 1;
  const Reader reader{tiff_block, order == "II"};
  const std::size_t directory = reader.u32(4);
  if (reader.u16(2) != 42 || !reader.has(directory, 2)) return 1;
  const std::uint32_t entries = reader.u16(directory);
  for (std::uint32_t i = 0; i < entries; ++i) {
    const std::size_t entry = directory + 2 + std::size_t{12} * i;
    if (!reader.has(entry, 12)) return 1;
    if (reader.u16(entry) != orientation_tag) continue;
    if (reader.u16(entry + 2) != short_type) return 1;
    const std::uint32_t value = reader.u16(entry + 8);
    return value >= 1 && value <= 8 ? static_cast<int>(value) : 1;
  }
  return 1;
}

}  // namespace quoin::pictures
