#pragma once
#include "media/pictures/opening.h"
#include "media/pictures/svg_tree.h"

namespace quoin::pictures {

/// Makes the tree refer to nothing outside: pictures of the game folder (and those that it already
/// carries as data: addresses) are opened like any other picture and brought in; parts of other
/// files, addresses on the web and style sheets are taken out, each reported as
/// `picture.svg-will-not-load`. JPEG and 8-bit PNG come in as they are; what has a colour profile,
/// an EXIF turn, CMYK or another format comes in as a PNG of upright sRGB pixels.
///
/// Fails with `picture.svg-circular` when a drawing brings in itself, and with
/// `picture.too-large` when everything brought in is more than 7 MiB or 100 megapixels.
[[nodiscard]] Outcome bring_in_links(const SourceFile& file, SvgTree& tree,
                                     const Surroundings& around, Nesting& nesting,
                                     Diagnostics& remarks);

/// The ids that a value refers to as url(#id).
[[nodiscard]] std::vector<std::string> ids_in(std::string_view style);

}  // namespace quoin::pictures
