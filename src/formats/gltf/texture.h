#pragma once
#include "base/world.h"

namespace quoin::gltf {

/// The PNG without all that does not make its pixels: glTF has every texture in sRGB and heeds no
/// colour notes in it. Throws `std::logic_error` for what is no whole PNG.
[[nodiscard]] Bytes bare_png(const Bytes& png);

}  // namespace quoin::gltf
