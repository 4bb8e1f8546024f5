#pragma once
#include <librsvg/rsvg.h>

#include <map>
#include <string>

#include "media/canvas/cairo.h"
#include "media/picture.h"

namespace quoin {

/// The SVG pictures of one canvas, each parsed once. Not for two threads at once.
///
/// Letters in an SVG are set with the fonts of the typesetter made last in this thread, or else
/// with the house fonts; never with the machine's (see text/thread_fonts.h).
class Drawings {
 public:
  /// Draws the whole picture stretched to `to` in the current frame. False when the renderer gave
  /// up; then nothing, or a part, is there.
  [[nodiscard]] bool draw(cairo_t* cr, const Picture& picture, Rect to);

 private:
  std::map<std::string, ObjectPtr<RsvgHandle>> handles_;
};

}  // namespace quoin
