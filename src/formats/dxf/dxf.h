#pragma once
#include "base/world.h"
#include "formats/drawing.h"

namespace quoin {

/// Writes the line work of the chosen layers as DXF of release 12 (AC1009, ASCII), which every
/// cutting machine's program reads: one drawing unit is a millimetre, the origin is the bottom left
/// of `bounds`, y up. Release 12 has no header field for the unit ($INSUNITS came later), so a
/// comment at the top says millimetres and the drawing's limits show the size; whoever opens the
/// file in a program that asks for the unit answers "millimetres".
///
/// Layers are CUT, CREASE, GLUE, BLEED, SAFE, DIMENSION, MARK and ART, each with a colour of its
/// own. A single line becomes a LINE, a single arc an ARC, all else a POLYLINE, so that the blade
/// stays down along a whole outline: its arcs are true arcs (bulges), other curves become lines
/// that leave the curve by 0.01 mm at most. A filled shape gives its outline, as do letters. Dashes
/// and widths are left to the machine.
///
/// Source: the DXF reference of release 12, from memory; checked by an independent reader
/// (tests/outside). Deterministic. Throws `std::logic_error` where `line_work` does, and for a
/// place that is no number.
[[nodiscard]] Bytes write_dxf(const Drawing& drawing, const LayerSet& layers);

}  // namespace quoin
