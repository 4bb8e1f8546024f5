#pragma once
#include <vector>

#include "sheets/page_frame.h"

namespace quoin::sheets {

/// A straight hairline on a page.
struct MarkLine {
  Point from, to;
};

/// Which way the strips run that hold the slug and the bar.
enum class SlugPlace { none, across, upright };
[[nodiscard]] SlugPlace slug_place(const PageFrame& frame);

/// Depth of the row in which the slug or the bar stands, and its distance from the crop marks.
inline constexpr Mm slug_row{2.6};
inline constexpr Mm slug_clearance{0.4};

/// Crop marks stand off the bleed by this, and are not drawn shorter than `shortest_mark`.
inline constexpr Mm mark_clearance{0.25};
inline constexpr Mm shortest_mark{0.5};
inline constexpr Mm longest_mark{5};
inline constexpr Mm mark_width{0.2};

/// Lengths of the crop marks on the four sides; 0 where there is no room.
[[nodiscard]] Insets mark_lengths(const PageFrame& frame);

/// At both ends of every trim line outside the bleed, and in gutters that leave 2 mm or more
/// between the bleeds of both neighbours.
[[nodiscard]] std::vector<MarkLine> crop_marks(const PageFrame& frame);
/// At both ends of every fold.
[[nodiscard]] std::vector<MarkLine> fold_marks(const PageFrame& frame);

/// Centres of the register targets: the same places of the sheet on both sides. Empty when there
/// is nowhere to put them. `lines` are the marks they must not touch.
inline constexpr Mm target_size{4};
[[nodiscard]] std::vector<Point> target_places(const PageFrame& frame,
                                               const std::vector<MarkLine>& lines);

}  // namespace quoin::sheets
