#pragma once
#include "media/pictures/opening.h"

namespace quoin::pictures {

/// Reads an SVG, takes out or brings in whatever the renderer would not or must not reach, sees
/// that drawing it ends in time, and asks for its natural size. The safe text stands by itself: it
/// refers to nothing outside.
///
/// Order: bounds of the text; XML without entities; elements and attributes (svg_clean.h);
/// references (svg_links.h); what following them costs (svg_cost.h); one trial in a process of its
/// own when there is anything expensive in it (svg_trial.h); size, by librsvg.
[[nodiscard]] Result<FirstLook> look_at_svg(const SourceFile& file, const Surroundings& around,
                                            Nesting& nesting);

}  // namespace quoin::pictures
