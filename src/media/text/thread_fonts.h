#pragma once
#include <pango/pango.h>

namespace quoin {

/// Makes `fonts` those that SVG pictures drawn in this thread set their letters with. The renderer
/// asks pango for the thread's default font map and has no other way to be told.
void offer_thread_fonts(PangoFontMap* fonts);

/// Sees that this thread's default font map is one of ours: what was offered last, or the house
/// fonts. Call before the renderer runs.
void use_thread_fonts();

}  // namespace quoin
