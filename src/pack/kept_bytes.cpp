#include "pack/kept_bytes.h"

#include <fmt/format.h>

#include "base/hash.h"

namespace quoin::pack {
namespace {

std::string cache_key(std::string_view kind, const std::string& name) {
  return fmt::format("{}-{}", kind, name);
}

}  // namespace

std::optional<Bytes> kept(const ImageCache* cache, std::string_view kind, const std::string& name) {
  if (cache == nullptr || name.empty()) return std::nullopt;
  constexpr std::size_t sum_size = 64;
  std::optional<Bytes> bytes = cache->get(cache_key(kind, name));
  if (!bytes || bytes->size() <= sum_size) return std::nullopt;
  const std::string sum = bytes->substr(bytes->size() - sum_size);
  bytes->resize(bytes->size() - sum_size);
  if (sha256(*bytes) != sum) return std::nullopt;
  return bytes;
}

void keep(ImageCache* cache, std::string_view kind, const std::string& name, const Bytes& bytes) {
  if (cache != nullptr && !name.empty()) cache->put(cache_key(kind, name), bytes + sha256(bytes));
}

}  // namespace quoin::pack
