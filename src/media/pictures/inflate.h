#pragma once
#include <cstdint>
#include <optional>
#include <string_view>
#include <vector>

#include "base/world.h"

namespace quoin::pictures {

/// A zlib stream (RFC 1950) that gives at most `most` bytes; nothing when it is damaged, has a
/// wrong checksum or would give more.
[[nodiscard]] std::optional<std::vector<std::uint8_t>> inflate(std::string_view stream,
                                                               std::size_t most);

/// The same for a small stream of unknown size (a profile); empty when damaged or over the limit.
[[nodiscard]] Bytes inflate_unknown_size(std::string_view stream);

}  // namespace quoin::pictures
