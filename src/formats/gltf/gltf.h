#pragma once
#include "formats/gltf/model.h"

namespace quoin {

/// Writes the model as binary glTF 2.0 (.glb, ISO/IEC 12113:2022): metres, y up, everything in the
/// one file. Each texture is in it once, without the chunks of a PNG that glTF does not heed
/// (colour notes, resolution). Turns keep to the shorter way between keyframes.
///
/// Deterministic. Throws `std::logic_error` for a model that is not whole: no parts, numbers of
/// parts, materials or vertices that do not exist, a vertex that is no number or has no normal,
/// times that do not rise, a scale below 0, a texture that is no PNG.
[[nodiscard]] Bytes write_glb(const gltf::Model& model);

}  // namespace quoin
