#pragma once
#include <array>
#include <optional>
#include <string>

#include "pieces/card/inspect.h"

namespace quoin::pieces {

/// A border of even width that a face shows between its trim and a frame or a panel.
struct Border {
  Mm width;             ///< the narrower of the two ways across
  std::string element;  ///< what it is seen against
  Origin origin;
  bool operator==(const Border&) const = default;
};

/// What a blade that strays, and the printer's ink, will find on one side of a card.
struct FaceMeasure {
  /// From the trim inwards to the nearest words or emblem; 0 when they reach it, `far` when there
  /// are none. Decoration does not count.
  Mm kept = far;
  std::string kept_element;
  Origin kept_origin;
  std::optional<Border> border;
  bool is_paper_at_edge = false;  ///< no ink along the edge: a stray cut shows nothing
  /// Part of the trim and its bleed that each plate covers, 0..1: cyan, magenta, yellow, black.
  std::array<double, 4> ink{};
  bool operator==(const FaceMeasure&) const = default;

  static constexpr Mm far{1000};
};

/// A frame counts as a border when it lies 0.3 to 12 mm inside the trim, as far on the left as on
/// the right and at the top as at the bottom (to 0.25 mm, what the eye of a check tells apart), and
/// when the colour on its two sides is seen to differ on all four sides of the face.
///
/// Ink is counted on the small picture: k = min(1-r, 1-g, 1-b), then what is left of each (device
/// RGB to CMYK with all of the grey taken out, ISO 32000-1, 10.3.4, with black generation and
/// undercolour removal both the identity). Printers make their plates in ways of their own; the sum
/// tells full pages from light ones.
[[nodiscard]] FaceMeasure measure_face(const Face& face, const FaceLook& look);

/// The part of an opaque picture that each plate covers, 0..1: cyan, magenta, yellow, black,
/// separated as said above.
[[nodiscard]] std::array<double, 4> ink_on(const Raster& picture);

}  // namespace quoin::pieces
