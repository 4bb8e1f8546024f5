#pragma once
#include <optional>
#include <string_view>

#include "base/world.h"

namespace quoin::pictures {

struct Inflated {
  Bytes bytes;
  std::size_t read = 0;  ///< of the stream; what follows it was not needed
};

/// A zlib stream (RFC 1950) that gives at most `most` bytes; nothing when it is damaged, has a
/// wrong checksum or would give more.
[[nodiscard]] std::optional<Inflated> inflate(std::string_view stream, std::size_t most);

/// The same for a small stream of unknown size (a profile); empty when damaged or over the limit.
[[nodiscard]] Bytes inflate_unknown_size(std::string_view stream);

}  // namespace quoin::pictures
