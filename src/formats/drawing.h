#pragma once
#include <set>
#include <string>

#include "scene/scene.h"

namespace quoin {

/// A drawing on its own, for a screen or a cutting machine.
struct Drawing {
  std::string title;
  Rect bounds;  ///< the part of the scene's frame that is the drawing; its top left is its corner
  Scene scene;  ///< texts must be set
};

/// The layers that go into a file. What an outermost item's layer is counts for all that the item
/// holds; no items on a layer, no layer in the file.
using LayerSet = std::set<Layer>;

}  // namespace quoin
