#pragma once
#include "base/packed.h"
#include "scene/scene.h"

namespace quoin::job {

/// Writes what a scene's looks follow from besides the layouts and settings that it was drawn by:
/// its words, and its pictures by their contents.
void write_contents(PackedWriter& out, const Scene& scene);

}  // namespace quoin::job
