#pragma once
#include "game/game.h"
#include "geometry/geometry.h"

namespace quoin::sheets {

/// The dead margins of a page of `paper`. They are given for the paper as the maker states it; on
/// the same paper laid the other way no two printers agree which way the page is turned, so each
/// pair of opposite margins is taken at the larger of the two.
[[nodiscard]] Insets dead_margin(const game::SheetWishes& wishes, Size paper);

/// What of a page the printer can reach. Empty (size 0) when the margins leave nothing.
[[nodiscard]] Rect printable(const game::SheetWishes& wishes, Size paper);

/// True when backs are forms of their own, on the other side of the sheet.
[[nodiscard]] bool has_back_forms(const game::SheetWishes& wishes);

/// The part of the front page of which the printer reaches both the front and what lies behind it.
/// It is as wide to the left of the page's middle as to the right (or above and below) along the
/// axis that the flip mirrors. The same as `printable` when there are no back forms.
[[nodiscard]] Rect printable_on_both_sides(const game::SheetWishes& wishes, Size paper);

/// The whole page.
[[nodiscard]] constexpr Rect page_of(Size paper) { return {{}, paper}; }

}  // namespace quoin::sheets
