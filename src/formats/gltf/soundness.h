#pragma once
#include "formats/gltf/model.h"

namespace quoin::gltf {

/// Throws `std::logic_error` for a model that is not whole, as `write_glb` says.
void expect_whole(const Model& model);

}  // namespace quoin::gltf
