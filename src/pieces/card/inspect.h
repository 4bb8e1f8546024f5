#pragma once
#include <cstdint>
#include <string>
#include <vector>

#include "game/game.h"
#include "scene/scene.h"

namespace quoin::pieces {

/// 4 pixels a millimetre (101.6 ppi): whole pixels for card sizes in half and quarter millimetres,
/// fine enough for the eye of a check, about a hundred thousand pixels for a card.
inline constexpr double look_pixels_per_mm = 4;

/// One printed side of a card as it was drawn, ready to be inspected. Refers to its scene, which
/// must outlive it and whose texts must be set.
struct Face {
  std::string piece;        ///< "W-07", "back of main": names it in every finding
  const Scene& scene;       ///< origin at the trim's top left
  game::CardFormat format;  ///< `bleed` is how far this side is drawn past the trim
  Origin row;               ///< the card's row, for findings that no element explains
  double pixels_per_mm = look_pixels_per_mm;  ///< of the look at it: fewer for what is very large
};

/// What lies beneath one leaf of the scene (a text or a fine line), read off the face as it was
/// just before that leaf was drawn: opaque pixels as in Raster.
struct Ground {
  std::size_t leaf = 0;  ///< place in `leaves_of(scene)`
  /// For a text, the pixels under the ink of each of its lines; for a line, those along it.
  std::vector<std::vector<std::uint32_t>> stretches;
};

/// A small picture of a face, trim and bleed on white paper, and the grounds of its texts: drawn
/// once, looked at by all checks. About 0.4 MB for a card.
struct FaceLook {
  Size trim;
  Mm bleed;
  Raster picture;
  std::vector<Ground> grounds;
  Diagnostics found;  ///< what could not be drawn to its end: the picture shows the face without
  double pixels_per_mm = look_pixels_per_mm;
};

/// Draws the face for the checks. Texts must be set (`std::logic_error` otherwise).
[[nodiscard]] FaceLook look_at(const Face& face, PictureShelf& shelf);

/// Everything that would disappoint on one side of a card:
///
/// - `art.low-resolution`, `art.short-of-bleed`: pictures and panels
/// - `card.outside-safe`, `card.small-type`, `card.thin-line`, `card.low-contrast`
/// - `card.text-too-long`, `text.missing-family`, `text.missing-face`, `text.missing-glyph`,
///   `text.other-font`, `text.broke-inside-word`, `text.no-hyphenation`: what the typesetter met
///
/// Elements whose role is decoration are let off the safe area, small type and contrast. Each
/// finding is `on` the face's piece and its element. Silenced checks are the caller's to leave out.
[[nodiscard]] Diagnostics check_face(const Face& face, const game::Limits& limits,
                                     const FaceLook& look);

}  // namespace quoin::pieces
