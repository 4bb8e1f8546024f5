#pragma once
#include "geometry/geometry.h"
#include "media/text.h"

namespace quoin::guide {

/// How a guide looks: one grid, one family, few sizes.

inline constexpr Colour type_ink{0.11, 0.13, 0.16, 1}, quiet{0.40, 0.43, 0.47, 1},
    hairline{0.78, 0.80, 0.82, 1}, accent{0.02, 0.36, 0.44, 1}, accent_wash{0.91, 0.95, 0.96, 1},
    alarm{0.76, 0.36, 0.05, 1}, alarm_wash{0.993, 0.955, 0.905, 1};

/// The step of the grid: half a line of the body. Heights are whole numbers of it.
inline constexpr Mm grid_step{2.452};
inline constexpr Mm gutter{8};

/// The page and the column that everything keeps to.
struct Look {
  Size page;
  Rect column;
  /// How long a line of running words may be: some 75 letters.
  [[nodiscard]] Mm measure() const { return std::min(column.size.width, Mm{134}); }
  /// The width of one of `across` columns side by side.
  [[nodiscard]] Mm share(int across) const {
    return (column.size.width - gutter * (across - 1)) / across;
  }
};
/// For a page of 120 x 150 mm or more.
[[nodiscard]] Look look_for(Size page);

/// The page for a game printed on `sheet`: that paper, upright, when it can be read as a page;
/// Letter for other papers measured in inches, A4 for all others.
[[nodiscard]] Size page_for(Size sheet);

enum class Voice {
  title,
  subtitle,
  chapter,
  heading,
  body,
  caption,
  table_head,
  foot,
  number  ///< in the disc of a step
};
[[nodiscard]] TextStyle style_of(Voice voice);

/// Rounded up to the grid.
[[nodiscard]] Mm on_grid(Mm height);

}  // namespace quoin::guide
