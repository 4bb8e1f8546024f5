#pragma once
#include <map>
#include <span>
#include <string>
#include <vector>

#include "media/colour.h"
#include "media/picture.h"

namespace quoin::trace {

/// One colour of a palette.
struct PaletteColour {
  Colour colour;     ///< opaque
  std::string name;  ///< "dark-blue": a TOML bare key, unlike that of any other
  double share = 0;  ///< of all that is not transparent, 0..1
};

/// What a maker may ask for.
struct PaletteWishes {
  int most = 12;       ///< colours at most, 1 or more; those of the largest areas are kept
  double nearest = 5;  ///< CIEDE2000 below which two colours are one
  /// Colours that have names already, as in [colours] of a game. A colour nearer than CIEDE2000 1
  /// to one of them is given that name; no other colour is.
  std::map<std::string, Colour> named;
};

/// The colours of all these pictures together, those of the largest area first.
///
/// Colours are taken from plain areas and from gradients, never from the mixed pixels along an
/// edge; each mixed pixel is counted in parts to the two colours that it lies between. Pixels
/// count, whatever the size at which a picture is printed. The same pictures give the same palette.
///
/// Empty when nothing has a colour of its own: transparent pictures, and noise, in which hardly a
/// pixel is like those beside it. `pictures` are premultiplied 0xAARRGGBB in sRGB, as Raster is.
[[nodiscard]] std::vector<PaletteColour> palette_of(std::span<const Raster* const> pictures,
                                                    const PaletteWishes& wishes = {});

}  // namespace quoin::trace
