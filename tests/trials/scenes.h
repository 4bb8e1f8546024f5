#pragma once
#include "known_pictures.h"

namespace quoin::trials {

/// Scenes of our own with gradients: a sky with its sun, a ball, a shaded shell and others.
[[nodiscard]] std::vector<KnownPicture> gradient_scenes();

}  // namespace quoin::trials
