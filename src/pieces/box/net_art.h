#pragma once
#include "scene/scene.h"

namespace quoin::pieces {

/// What is printed on one net of a box. Texts are set. Ink reaches `bleed` past the cuts and none
/// lies where glue goes.
///
/// `printed` is in the net's frame: x right, y down, the printed side towards the reader. `inside`
/// is as it is seen with the net turned over about a vertical line: its (x, y) lies behind (-x, y)
/// of the net.
struct NetArt {
  Scene printed;
  Scene inside;  ///< without items when nothing is printed on the inside
  Mm bleed;
};

}  // namespace quoin::pieces
