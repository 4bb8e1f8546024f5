#pragma once
#include <cstdint>
#include <vector>

#include "pieces/card/inspect_leaves.h"
#include "pieces/card/inspect_pixels.h"

namespace quoin::pieces {

/// True for texts and for lines thin enough to need a look at what lies beneath them.
[[nodiscard]] bool needs_ground(const Leaf& leaf);

/// The pixels beneath the leaf, stretch by stretch, as Ground keeps them. Stretches that lie off
/// the face are left out.
[[nodiscard]] std::vector<std::vector<std::uint32_t>> stretches_beneath(const Leaf& leaf,
                                                                        const Pixels& pixels);

}  // namespace quoin::pieces
