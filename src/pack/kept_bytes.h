#pragma once
#include <optional>
#include <string>
#include <string_view>

#include "base/world.h"
#include "media/picture.h"

namespace quoin::pack {

/// Bytes of that kind that an earlier run kept under this name, whose own sum stands after them in
/// the cache; nothing without a cache or a name.
[[nodiscard]] std::optional<Bytes> kept(const ImageCache* cache, std::string_view kind,
                                        const std::string& name);

/// Keeps bytes for later runs; does nothing without a cache or a name.
void keep(ImageCache* cache, std::string_view kind, const std::string& name, const Bytes& bytes);

}  // namespace quoin::pack
