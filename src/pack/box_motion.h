#pragma once
#include "formats/gltf/model.h"
#include "pack/box_solids.h"
#include "pieces/box/box.h"

namespace quoin::pack {

/// Adds the animations of the folding: all of it, then each step by itself. A step takes two
/// seconds; before the one in which the deck goes in, one and a half more are the deck's.
///
/// Between two keyframes a panel turns evenly about its crease, just as `fold::angle_at` has it.
void add_folding(gltf::Model& model, const pieces::Box& box, const BoxParts& parts);

}  // namespace quoin::pack
