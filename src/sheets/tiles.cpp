#include "sheets/tiles.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <tuple>

#include "sheets/printable.h"
#include "sheets/wording.h"

namespace quoin::sheets {
namespace {

/// How many strips of `each`, overlapping, reach `wanted`.
int strips_for(Mm wanted, Mm each, Mm overlap) {
  if (fits(wanted, each)) return 1;
  return static_cast<int>(std::ceil((wanted - overlap - epsilon) / (each - overlap)));
}

struct Count {
  Size paper;
  Rect printable;
  int columns = 1, rows = 1;
  Mm seams;  ///< together
  [[nodiscard]] int sheets() const { return columns * rows; }
};

/// One way round of the paper; nothing when too little of it can be printed.
std::optional<Count> count_on(Size paper, Size whole, Mm overlap, const game::SheetWishes& wishes) {
  Count count{paper, printable(wishes, paper), 1, 1, {}};
  const Size each = count.printable.size;
  if (fits(whole.width, each.width) && fits(whole.height, each.height)) return count;
  if (each.width <= overlap * 2 || each.height <= overlap * 2) return std::nullopt;
  count.columns = strips_for(whole.width + tile_rim * 2, each.width, overlap);
  count.rows = strips_for(whole.height + tile_rim * 2, each.height, overlap);
  count.seams = whole.height * (count.columns - 1) + whole.width * (count.rows - 1);
  return count;
}

Diagnostic too_small(Size whole, Mm overlap, const game::SheetWishes& wishes,
                     const Origin& origin) {
  Diagnostic problem(
      Id::mat_sheet_too_small, origin,
      fmt::format("{} of {} leaves {} to print on, too little for a mat of {} with {} of overlap",
                  wishes.paper_name, millimetres(wishes.paper),
                  millimetres(printable(wishes, wishes.paper).size), millimetres(whole),
                  millimetres(overlap)));
  return problem.on("mat").hint("use larger paper, or a smaller margin under [printer]");
}

Diagnostic too_many(const Count& count, Size whole, const game::SheetWishes& wishes,
                    const Origin& origin) {
  Diagnostic problem(
      Id::mat_sheet_too_small, origin,
      fmt::format("a mat of {} takes {} of {}; nobody joins more than {}", millimetres(whole),
                  counted(count.sheets(), "sheet"), wishes.paper_name, most_tiles));
  return problem.on("mat").hint("use larger paper under [sheets], or have a shop print the mat");
}

/// Where strips of one width begin, and where the seams between them lie.
struct Axis {
  Mm each;
  std::vector<Mm> starts, seams;
};
/// Several strips are no wider than they need be, so that all are alike; one has all there is.
Axis lay_axis(Mm whole, Mm most, int count, Mm overlap) {
  const Mm needed = (whole + tile_rim * 2 + overlap * (count - 1)) / count;
  const Mm each = count == 1 ? most : std::min(most, needed);
  const Mm first = (whole - (each * count - overlap * (count - 1))) / 2;
  Axis axis{each, {}, {}};
  for (int i = 0; i < count; ++i) {
    axis.starts.push_back(first + (each - overlap) * i);
    if (i > 0) axis.seams.push_back(axis.starts.back() + overlap / 2);
  }
  return axis;
}

/// What is shown of strip i: from the seam before it to the seam after it.
std::pair<Mm, Mm> shown_on(const Axis& axis, int i) {
  const auto at = static_cast<std::size_t>(i);
  const Mm from = i == 0 ? axis.starts[at] : axis.seams[at - 1];
  const Mm to = at == axis.seams.size() ? axis.starts[at] + axis.each : axis.seams[at];
  return {from, to};
}

}  // namespace

Affine Tiling::to_page(const Tile& tile) const {
  return Affine::move(printable.centre() - tile.printed.centre());
}

Result<Tiling> lay_tiles(Size whole, Mm overlap, const game::SheetWishes& wishes,
                         const Origin& origin) {
  std::optional<Count> best;
  const Size upright{std::min(wishes.paper.width, wishes.paper.height),
                     std::max(wishes.paper.width, wishes.paper.height)};
  for (const Size paper : {upright, turned(upright)}) {
    const std::optional<Count> count = count_on(paper, whole, overlap, wishes);
    if (!count) continue;
    if (!best || std::tuple(count->sheets(), count->seams.value) <
                     std::tuple(best->sheets(), best->seams.value)) {
      best = count;
    }
  }
  if (!best) return too_small(whole, overlap, wishes, origin);
  if (best->sheets() > most_tiles) return too_many(*best, whole, wishes, origin);
  const Size each = best->printable.size;
  const Axis across = lay_axis(whole.width, each.width, best->columns, overlap);
  const Axis down = lay_axis(whole.height, each.height, best->rows, overlap);
  Tiling tiling{whole,         best->paper, best->printable,
                best->columns, best->rows,  overlap,
                across.seams,  down.seams,  {}};
  for (int row = 0; row < best->rows; ++row) {
    for (int column = 0; column < best->columns; ++column) {
      const auto [left, right] = shown_on(across, column);
      const auto [top, bottom] = shown_on(down, row);
      tiling.tiles.push_back({row,
                              column,
                              row_letters(row) + std::to_string(column + 1),
                              {{across.starts[static_cast<std::size_t>(column)],
                                down.starts[static_cast<std::size_t>(row)]},
                               {across.each, down.each}},
                              {{left, top}, {right - left, bottom - top}}});
    }
  }
  return tiling;
}

std::string row_letters(int row) {
  constexpr int alphabet = 26;
  std::string letters(1, static_cast<char>('A' + row % alphabet));
  for (row /= alphabet; row > 0; row = (row - 1) / alphabet) {
    letters.insert(letters.begin(), static_cast<char>('A' + (row - 1) % alphabet));
  }
  return letters;
}

std::string tiling_words(const Tiling& tiling, const std::string& paper_name) {
  const bool level = tiling.paper.width > tiling.paper.height;
  const std::string way = tiling.paper.width == tiling.paper.height ? ""
                          : level                                   ? ", landscape"
                                                                    : ", portrait";
  std::string words = fmt::format(
      "{} of {}{}", counted(static_cast<int>(tiling.tiles.size()), "sheet"), paper_name, way);
  if (!tiling.is_one_sheet()) words += fmt::format(", {} by {}", tiling.columns, tiling.rows);
  return words;
}

}  // namespace quoin::sheets
