#pragma once
#include <string>

#include "base/world.h"

namespace quoin::pictures {

/// The file of the game whose name is nearest to `path` (another folder, other letters large or
/// small, another ending, a slip or two); empty when none is near.
[[nodiscard]] std::string nearest_file(const World& world, const std::string& path);

}  // namespace quoin::pictures
