#include "base/hash.h"

#include <nettle/sha2.h>

#include <array>

namespace quoin {

std::string sha256(std::string_view bytes) {
  sha256_ctx sum;
  sha256_init(&sum);
  sha256_update(&sum, bytes.size(), reinterpret_cast<const std::uint8_t*>(bytes.data()));
  std::array<std::uint8_t, SHA256_DIGEST_SIZE> digest;
  sha256_digest(&sum, digest.size(), digest.data());
  constexpr std::string_view digits = "0123456789abcdef";
  std::string text;
  for (const std::uint8_t byte : digest) {
    text += digits[byte >> 4];
    text += digits[byte & 15];
  }
  return text;
}

}  // namespace quoin
