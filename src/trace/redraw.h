#pragma once
#include <utility>
#include <vector>

#include "base/result.h"
#include "media/picture.h"
#include "trace/tracing.h"

namespace quoin::trace {

/// How closely a border is followed.
enum class Closeness {
  closest,      ///< to 0.1 px: the default
  fewest_nodes  ///< to 0.2 px: about half the nodes
};

/// What a maker may ask for.
struct TraceWishes {
  Closeness closeness = Closeness::closest;
  int colours = 0;              ///< so many plain colours and no gradients, 1..64; 0: as it needs
  std::vector<Colour> palette;  ///< when not empty: only these colours, no gradients
  /// Colours of the drawing and those that take their places, see exchange_colours. Where that
  /// makes two areas alike they become one before borders are drawn.
  std::vector<std::pair<Colour, Colour>> instead = {};
};

// What is traced at all, and in how much memory.
inline constexpr int least_side = 8;                   // px; below, there is nothing to follow
inline constexpr int most_traced_pixels = 8'000'000;   // above, halved until it is no more
inline constexpr int most_doubled_pixels = 3'000'000;  // above, borders are sought at pixels only
inline constexpr int most_fine_pixels = 30'000;        // above, 2 x 2 cells a pixel, not 4 x 4
inline constexpr int most_faces = 20'000;              // specks are dropped until it is no more

/// Redraws a picture of pixels as faces with shared borders.
///
/// Colours are found or taken as wished; borders run where two colours mix half and half, a
/// fraction of a pixel exact; corners stay corners; transparent parts stay transparent. The same
/// pixels give the same drawing. `origin` is where the picture was asked for.
///
/// Fails with `trace.too-small` and `trace.nothing-drawn`. `found` has `trace.made-smaller`,
/// `trace.one-colour`, `trace.small-text` and `trace.no-such-colour`. Memory stays under 100 bytes
/// for each pixel traced, and 100 MB; time is proportional to the pixels.
[[nodiscard]] Result<Checked<Tracing>> redraw(const Raster& picture, const TraceWishes& wishes,
                                              const std::string& name, const Origin& origin);

/// The colours of a picture as areas, before their borders are drawn: what `redraw` works from.
struct ColourAreas {
  int scale = 2;                ///< cells along one side of a pixel
  int width = 0, height = 0;    ///< cells
  std::vector<int> colour;      ///< of each cell, an index into `colours`
  std::vector<Colour> colours;  ///< alpha 0: transparent
};

/// Finds the areas of colour, each picture pixel divided into `scale` x `scale` cells (1 to 4).
/// Fails like `redraw`.
[[nodiscard]] Result<ColourAreas> colour_areas(const Raster& picture, const TraceWishes& wishes,
                                               int scale, const std::string& name,
                                               const Origin& origin);

}  // namespace quoin::trace
