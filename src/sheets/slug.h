#pragma once
#include <optional>
#include <string>
#include <vector>

#include "sheets/mark_lines.h"

namespace quoin::sheets {

/// A free row outside the bleed for words or the bar: `length` along it, slug_row deep.
struct SlugRow {
  Affine map;  ///< from the row's own frame (its beginning, words upright) to the page
  Mm length;
};

struct SlugRows {
  SlugRow words;  ///< at the top, or at the left reading upwards
  SlugRow bar;    ///< at the bottom, or at the right reading upwards
};

/// The rows between the register targets; nothing when there is no room.
[[nodiscard]] std::optional<SlugRows> slug_rows(const PageFrame& frame,
                                                const std::vector<Point>& targets);

/// "Tidewrack · front 3 of 11 · uncoated card 250 g/m² · cut along the marks": what is empty is
/// left out, line breaks become spaces, and what a row of that length cannot hold in the smallest
/// type is cut off with "…".
[[nodiscard]] std::string slug_text(const Slug& slug, Mm row_length);

/// The line of words; nothing when there is nothing to say, or no room to say it.
[[nodiscard]] std::optional<Item> slug_line(const Slug& slug, const SlugRow& row,
                                            const std::string& family);

/// Row length that the shorter bar takes, its end ticks included.
inline constexpr Mm shortest_bar = Mm{50} + mark_width;

/// A bar of 100 mm between the middles of its end ticks, with a tick every 10 mm and words that
/// say what it is for; 50 mm when the row is shorter, nothing when it is shorter than that.
[[nodiscard]] std::vector<Item> measuring_bar(const SlugRow& row, const std::string& family);

}  // namespace quoin::sheets
