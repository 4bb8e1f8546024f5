#pragma once
#include <optional>
#include <vector>

#include "sheets/sheets.h"

namespace quoin::sheets {

/// What an arrangement goes without, each step also without what the steps before it lack. Reasons
/// and numbers: docs/decisions/sheet-grids.md.
enum class Lack {
  nothing,          ///< full outer bleed, crop marks on all sides, a slug on two
  marks,            ///< crop marks are shorter than 1.5 mm, or missing, on two sides
  bleed,            ///< on those sides part of the outer bleed lies in the dead margin
  slug,             ///< no strip for the slug either
  bleed_and_marks,  ///< only the trims are sure to be printed
};

/// One piece as it lies on a page of one orientation.
struct Pose {
  Size paper;
  bool turned = false;
  Fold fold = Fold::none;
  Size cell;    ///< what the piece takes of the page: turned when turned, both halves of a fold
  Rect usable;  ///< where trims may lie, see printable_on_both_sides
};

/// A grid before it is placed.
struct Arrangement {
  Pose pose;
  int columns = 0, rows = 0;
  Mm gutter;
  Lack lack = Lack::nothing;
  int sheets = 0;
  [[nodiscard]] int capacity() const { return columns * rows; }
};

/// The arrangement chosen, and a closer one that takes fewer sheets but lacks more, if there is
/// one.
struct Choice {
  Arrangement chosen;
  std::optional<Arrangement> closer;
};

/// The bleed that the outermost edges need: the larger of the two sides' when backs are drawn.
[[nodiscard]] Mm outer_bleed(const PieceFormat& piece, const game::SheetWishes& wishes);

/// Room beyond the bleed that crop marks ask for on each side, and the slug on two: common
/// practice, no source.
inline constexpr Mm marks_strip{1.5};
inline constexpr Mm slug_strip{4.5};
/// Bleed on which a hand cut may still be wrong without showing white: common practice, no source.
inline constexpr Mm least_bleed{1};
/// Gutters between none and full bleed are worth their second cut from here: 1 mm for each card.
inline constexpr Mm least_gutter{2};

/// Poses the wishes allow: upright before turned, portrait before landscape.
[[nodiscard]] std::vector<Pose> poses(const PieceFormat& piece, const game::SheetWishes& wishes);

/// The best arrangement for groups of `runs` pieces, each starting on a new sheet; nothing when
/// none fits.
[[nodiscard]] std::optional<Choice> choose(const PieceFormat& piece, const std::vector<int>& runs,
                                           const game::SheetWishes& wishes);

/// The arrangement with its trims placed: in the middle of what is usable.
[[nodiscard]] Grid placed(const Arrangement& arrangement);

/// Why nothing fits: `sheet.piece-too-large` or `sheet.grid-does-not-fit`.
[[nodiscard]] Diagnostic why_none_fits(const PieceFormat& piece, const game::SheetWishes& wishes);

/// "portrait A4"
[[nodiscard]] std::string paper_words(const game::SheetWishes& wishes, Size paper);

/// `best_grid` for groups that each start on a new sheet, with what else was considered.
struct ChosenGrid {
  Grid grid;
  Choice choice;
};
[[nodiscard]] Result<ChosenGrid> best_grid_for(const PieceFormat& piece,
                                               const std::vector<int>& runs,
                                               const game::SheetWishes& wishes);

}  // namespace quoin::sheets
