#include "media/pictures/inflate.h"

#include <libdeflate.h>

#include <algorithm>
#include <memory>
#include <new>

#include "media/pictures/limits.h"

namespace quoin::pictures {

std::optional<Inflated> inflate(std::string_view stream, std::size_t most) {
  const std::unique_ptr<libdeflate_decompressor, decltype(&libdeflate_free_decompressor)> inflater(
      libdeflate_alloc_decompressor(), &libdeflate_free_decompressor);
  if (inflater == nullptr) throw std::bad_alloc();
  Inflated result;
  result.bytes.resize(most);
  std::size_t given = 0;
  const libdeflate_result how =
      libdeflate_zlib_decompress_ex(inflater.get(), stream.data(), stream.size(),
                                    result.bytes.data(), most, &result.read, &given);
  if (how != LIBDEFLATE_SUCCESS) return std::nullopt;
  result.bytes.resize(given);
  return result;
}

Bytes inflate_unknown_size(std::string_view stream) {
  constexpr std::size_t smallest = 4096;
  for (std::size_t most = std::max(smallest, stream.size() * 4);;
       most = std::min(most * 4, largest_profile)) {
    most = std::min(most, largest_profile);
    std::optional<Inflated> result = inflate(stream, most);
    if (result) return std::move(result->bytes);
    if (most == largest_profile) return {};
  }
}

}  // namespace quoin::pictures
