#pragma once
#include "media/picture.h"

namespace quoin::pictures {

enum class Trial { draws, gives_up, takes_too_long };

/// Draws the SVG once, 800 px at its longer side, in a process of its own that may use 3 seconds
/// of the processor and 1 GiB more memory than there is now, so that a drawing that would hang or
/// crash the renderer does it there. A process stuck without working (another thread held a lock
/// when it was made) is tried again, three times in all.
///
/// The verdict is remembered in `cache` under the text's hash; `cache` may be null.
[[nodiscard]] Trial try_drawing(const Bytes& safe_svg, ImageCache* cache);

}  // namespace quoin::pictures
