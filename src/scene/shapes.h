#pragma once
#include <vector>

#include "scene/scene.h"

namespace quoin {

/// A filled shape without a line.
[[nodiscard]] Item shape(Path path, const Paint& fill);
/// A line along a path, with mitred corners.
[[nodiscard]] Item line(Path path, Colour colour, Mm width, std::vector<Mm> dash = {});

}  // namespace quoin
