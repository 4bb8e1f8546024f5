#pragma once
#include <optional>

#include "scene/scene.h"

namespace quoin::svg {

/// The item's silhouette in one opaque colour, as shapes and letters, without its own map, opacity
/// and shadow: what a shadow without a soft edge is made of. Nothing when the silhouette is not
/// made of shapes and letters alone, or lets something through.
[[nodiscard]] std::optional<Item> silhouette_of(const Item& item, Colour colour);

}  // namespace quoin::svg
