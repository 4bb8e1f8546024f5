#include "media/pictures/inflate.h"

#include <libdeflate.h>

#include <algorithm>
#include <memory>
#include <new>

#include "media/pictures/limits.h"

namespace quoin::pictures {

std::optional<std::vector<std::uint8_t>> inflate(std::string_view stream, std::size_t most) {
  const std::unique_ptr<libdeflate_decompressor, decltype(&libdeflate_free_decompressor)> inflater(
      libdeflate_alloc_decompressor(), &libdeflate_free_decompressor);
  if (inflater == nullptr) throw std::bad_alloc();
  std::vector<std::uint8_t> bytes(most);
  std::size_t read = 0, given = 0;  // what follows the stream does no harm
  const libdeflate_result how = libdeflate_zlib_decompress_ex(
      inflater.get(), stream.data(), stream.size(), bytes.data(), most, &read, &given);
  if (how != LIBDEFLATE_SUCCESS) return std::nullopt;
  bytes.resize(given);
  return bytes;
}

Bytes inflate_unknown_size(std::string_view stream) {
  constexpr std::size_t smallest = 4096;
  std::size_t most = std::min(std::max(smallest, stream.size() * 4), largest_profile);
  for (;; most = std::min(most * 4, largest_profile)) {
    const auto bytes = inflate(stream, most);
    if (bytes) return {bytes->begin(), bytes->end()};
    if (most == largest_profile) return {};
  }
}

}  // namespace quoin::pictures
