#include "formats/gltf/texture.h"

#include <cstdint>
#include <stdexcept>
#include <string_view>

namespace quoin::gltf {

Bytes bare_png(const Bytes& png) {
  constexpr std::string_view start = "\x89PNG\r\n\x1a\n";
  const std::string_view all = png;
  if (!all.starts_with(start)) throw std::logic_error("a texture that is no PNG");
  Bytes bare(start);
  for (std::size_t at = start.size(); at + 12 <= all.size();) {
    std::size_t length = 0;
    for (std::size_t i = 0; i < 4; ++i) {
      length = length << 8 | static_cast<unsigned char>(all[at + i]);
    }
    if (length > all.size() - at - 12) break;
    const std::string_view type = all.substr(at + 4, 4);
    if (type == "IHDR" || type == "PLTE" || type == "tRNS" || type == "IDAT" || type == "IEND") {
      bare += all.substr(at, length + 12);
    }
    if (type == "IEND") return bare;
    at += length + 12;
  }
  throw std::logic_error("a texture that is no whole PNG");
}

}  // namespace quoin::gltf
