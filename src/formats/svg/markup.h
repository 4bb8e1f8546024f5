#pragma once
#include <string>
#include <string_view>

#include "geometry/path.h"

namespace quoin::svg {

/// Lengths in millimetres to 1/10000.
[[nodiscard]] std::string length_text(Mm length);

/// "M0 0L10 0C.. ..Z". A path that does not begin with a move is empty up to its first move.
[[nodiscard]] std::string path_data(const Path& path);

/// ` transform="matrix(..)"`, or nothing for the map that changes nothing.
[[nodiscard]] std::string transform_attribute(const Affine& map);

/// "data:image/png;base64,..." (RFC 2397, RFC 4648).
[[nodiscard]] std::string data_address(std::string_view type, std::string_view bytes);

}  // namespace quoin::svg
