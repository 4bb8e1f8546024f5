#include "base/hash.h"

#include <glib.h>

#include <memory>
#include <new>

namespace quoin {

std::string sha256(std::string_view bytes) {
  const std::unique_ptr<GChecksum, decltype(&g_checksum_free)> sum(
      g_checksum_new(G_CHECKSUM_SHA256), &g_checksum_free);
  if (sum == nullptr) throw std::bad_alloc();
  g_checksum_update(sum.get(), reinterpret_cast<const guchar*>(bytes.data()),
                    static_cast<gssize>(bytes.size()));
  return g_checksum_get_string(sum.get());
}

}  // namespace quoin
