#pragma once
#include "base/result.h"
#include "formats/drawing.h"
#include "media/picture.h"

namespace quoin {

/// Writes the drawing as SVG 1.1 at true size: width and height in mm, one user unit a millimetre,
/// the origin at the top left of `bounds`. Each layer used is a group named as `to_string` names it
/// (<g id="cut">), with a title for readers, in the order of `Layer`.
///
/// Cut, crease, glue, bleed and safe area are outlines without fill, 0.1 mm wide at most, places
/// worked out to 0.0001 mm without transforms: what a machine's program follows. The other layers
/// look as they print: vectors stay vectors, letters become outlines so that no font is missed,
/// each picture is in the file once, soft shadows and outlines round pictures are made at 600 ppi.
///
/// Deterministic; stands by itself. Fails with what the shelf says of a picture. Throws
/// `std::logic_error` for a drawing without size, for texts that are not set and where `line_work`
/// does.
[[nodiscard]] Result<Bytes> write_svg(const Drawing& drawing, const LayerSet& layers,
                                      PictureShelf& shelf);

}  // namespace quoin
