#pragma once
#include <cstdint>
#include <string_view>

namespace quoin::pictures {

// Numbers in a file's bytes. The caller has made sure that the bytes are there.
[[nodiscard]] inline std::uint32_t byte_at(std::string_view s, std::size_t at) {
  return static_cast<unsigned char>(s[at]);
}
[[nodiscard]] inline std::uint32_t big_16(std::string_view s, std::size_t at) {
  return byte_at(s, at) << 8 | byte_at(s, at + 1);
}
[[nodiscard]] inline std::uint32_t big_32(std::string_view s, std::size_t at) {
  return big_16(s, at) << 16 | big_16(s, at + 2);
}
[[nodiscard]] inline std::uint32_t little_16(std::string_view s, std::size_t at) {
  return byte_at(s, at + 1) << 8 | byte_at(s, at);
}
[[nodiscard]] inline std::uint32_t little_32(std::string_view s, std::size_t at) {
  return little_16(s, at + 2) << 16 | little_16(s, at);
}
[[nodiscard]] inline std::uint32_t little_24(std::string_view s, std::size_t at) {
  return byte_at(s, at + 2) << 16 | little_16(s, at);
}

}  // namespace quoin::pictures
