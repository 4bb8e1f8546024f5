#include "cut/plan.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <stdexcept>

namespace quoin::cut {
namespace {

/// The same grid with rows and columns changed over, and cuts changed back.
Grid mirrored(const Grid& grid) {
  Grid other{turned(grid.sheet), grid.rows,     grid.columns,          turned(grid.piece),
             grid.gutter_y,      grid.gutter_x, {grid.at.y, grid.at.x}};
  if (grid.taken.empty()) return other;
  for (int column = 0; column < grid.columns; ++column) {
    for (int row = 0; row < grid.rows; ++row) other.taken.push_back(is_taken(grid, column, row));
  }
  return other;
}
Rect mirrored(Rect rect) { return {{rect.at.y, rect.at.x}, turned(rect.size)}; }
Edge mirrored(Edge edge) {
  switch (edge) {
    case Edge::left:
      return Edge::top;
    case Edge::top:
      return Edge::left;
    case Edge::right:
      return Edge::bottom;
    case Edge::bottom:
      break;
  }
  return Edge::right;
}
Cut mirrored(Cut cut) {
  cut.run = cut.run == Run::down ? Run::across : Run::down;
  cut.through = mirrored(cut.through);
  cut.fence = mirrored(cut.fence);
  return cut;
}

/// Equal pieces along one way, from a fresh edge at `from` on.
struct Row {
  Run run;  ///< of its cuts
  Mm from, piece, gutter;
  Mm end;  ///< where the boards end
  [[nodiscard]] Mm start(int i) const { return from + (piece + gutter) * i; }
  [[nodiscard]] Mm stop(int i) const { return start(i) + piece; }
};

/// A board that is cut up into the first `count` pieces of a row.
struct Strip {
  Rect board;
  int count;
};

/// The part of `board` between two places along the row.
Rect part(const Row& row, Rect board, Mm from, Mm to) {
  if (row.run == Run::down) {
    return rect_between({from, board.top()}, {to, board.bottom()});
  }
  return rect_between({board.left(), from}, {board.right(), to});
}

Cut fence_cut(const Row& row, Rect board, Mm from, Mm to, Mm at) {
  return {row.run,
          at,
          part(row, board, from, to),
          Found::by_fence,
          row.run == Run::down ? Edge::left : Edge::top,
          at - from};
}

bool has_waste_behind(const Row& row, int count) { return row.end > row.stop(count - 1) + epsilon; }

/// A piece with its gutter is cut off again and again at one setting; the next fresh edge goes
/// against the fence each time. A second setting takes the gutters off.
void chain(const Row& row, const std::vector<Strip>& strips, std::vector<Step>& steps) {
  Step parting, trimming;
  for (const Strip& strip : strips) {
    for (int i = 0; i + 1 < strip.count; ++i) {
      parting.cuts.push_back(fence_cut(row, strip.board, row.start(i), row.end, row.start(i + 1)));
    }
    for (int i = 0; i < strip.count; ++i) {
      const bool last = i + 1 == strip.count;
      const bool has_waste = last ? has_waste_behind(row, strip.count) : row.gutter > epsilon;
      if (!has_waste) continue;
      const Mm to = last ? row.end : row.start(i + 1);
      Step& step = row.gutter <= epsilon ? parting : trimming;
      step.cuts.push_back(fence_cut(row, strip.board, row.start(i), to, row.stop(i)));
    }
  }
  for (Step* step : {&parting, &trimming}) {
    if (!step->cuts.empty()) steps.push_back(std::move(*step));
  }
}

/// Where a strip is cut, the farthest line first.
std::vector<Mm> lines_of(const Row& row, int count) {
  std::vector<Mm> lines;
  if (count > 0 && has_waste_behind(row, count)) lines.push_back(row.stop(count - 1));
  for (int i = count - 1; i > 0; --i) {
    lines.push_back(row.start(i));
    if (row.gutter > epsilon) lines.push_back(row.stop(i - 1));
  }
  return lines;
}

/// The farthest line first, each measured from the one fresh edge.
void measure(const Row& row, const std::vector<Strip>& strips, std::vector<Step>& steps) {
  std::vector<Mm> all;
  for (const Strip& strip : strips) {
    for (const Mm line : lines_of(row, strip.count)) all.push_back(line);
  }
  std::sort(all.begin(), all.end(), std::greater<>());
  all.erase(std::unique(all.begin(), all.end(), [](Mm a, Mm b) { return nearly_equal(a, b); }),
            all.end());
  std::vector<Mm> ends(strips.size(), row.end);
  for (const Mm at : all) {
    Step step;
    for (std::size_t i = 0; i < strips.size(); ++i) {
      for (const Mm line : lines_of(row, strips[i].count)) {
        if (!nearly_equal(line, at)) continue;
        step.cuts.push_back(fence_cut(row, strips[i].board, row.from, ends[i], line));
        ends[i] = line;
      }
    }
    steps.push_back(std::move(step));
  }
}

Step mark_cut(Run run, Mm at, Rect through) {
  Cut cut;
  cut.run = run;
  cut.at = at;
  cut.through = through;
  return {{cut}, 0};
}

/// How many columns and rows there are up to the last piece.
struct Extent {
  int columns = 0, rows = 0;
};
Extent extent_of(const Grid& grid) {
  Extent extent;
  for (int row = 0; row < grid.rows; ++row) {
    for (int column = 0; column < grid.columns; ++column) {
      if (!is_taken(grid, column, row)) continue;
      extent.columns = std::max(extent.columns, column + 1);
      extent.rows = std::max(extent.rows, row + 1);
    }
  }
  return extent;
}

/// How many places of a row there are up to its last piece.
int count_in_row(const Grid& grid, int row) {
  int count = 0;
  for (int column = 0; column < grid.columns; ++column) {
    if (is_taken(grid, column, row)) count = column + 1;
  }
  return count;
}

/// A sheet while it is cut up: the steps so far, and the board with the fresh edges that is left.
struct Begun {
  std::vector<Step> steps;
  Rect board;
  Row down, along;  ///< its rows and its columns
};

/// The waste of three sides goes first, by the marks.
Begun waste_off(const Grid& grid) {
  const Rect block = block_of(grid);
  Begun begun;
  Rect rest{{}, grid.sheet};
  begun.steps.push_back(mark_cut(Run::down, block.left(), rest));
  rest = rect_between({block.left(), rest.top()}, {rest.right(), rest.bottom()});
  begun.steps.push_back(mark_cut(Run::across, block.top(), rest));
  rest = rect_between({rest.left(), block.top()}, {rest.right(), rest.bottom()});
  if (block.right() < rest.right() - epsilon) {
    begun.steps.push_back(mark_cut(Run::down, block.right(), rest));
    rest = rect_between({rest.left(), rest.top()}, {block.right(), rest.bottom()});
  }
  begun.board = rest;
  begun.down = {Run::across, block.top(), grid.piece.height, grid.gutter_y, rest.bottom()};
  begun.along = {Run::down, block.left(), grid.piece.width, grid.gutter_x, rest.right()};
  return begun;
}

using CutUp = void (*)(const Row&, const std::vector<Strip>&, std::vector<Step>&);

/// Rows first: strips across, then pieces out of each strip.
std::vector<Step> strips_across(const Grid& grid, CutUp by) {
  const Extent extent = extent_of(grid);
  auto [steps, board, down, along] = waste_off(grid);
  by(down, {{board, extent.rows}}, steps);
  std::vector<Strip> strips;
  for (int r = 0; r < extent.rows; ++r) {
    strips.push_back({part(down, board, down.start(r), down.stop(r)), count_in_row(grid, r)});
  }
  by(along, strips, steps);
  return steps;
}

/// True when all rows are full but the last, and there are two or more.
bool only_last_row_is_short(const Grid& grid) {
  const Extent extent = extent_of(grid);
  if (extent.rows < 2 || count_in_row(grid, extent.rows - 1) == extent.columns) return false;
  for (int row = 0; row + 1 < extent.rows; ++row) {
    if (count_in_row(grid, row) < extent.columns) return false;
  }
  return true;
}

/// The short last row comes off first; the full rows above are then cut up columns first.
std::vector<Step> last_row_off(const Grid& grid, CutUp by) {
  const Extent extent = extent_of(grid);
  auto [steps, board, down, along] = waste_off(grid);
  const int full = extent.rows - 1;
  const Mm below = down.start(full);
  steps.push_back({{fence_cut(down, board, down.from, down.end, below)}, 0});
  if (down.gutter > epsilon) {
    steps.push_back({{fence_cut(down, board, down.from, below, down.stop(full - 1))}, 0});
  }
  if (down.stop(full) < down.end - epsilon) {
    steps.push_back({{fence_cut(down, board, below, down.end, down.stop(full))}, 0});
  }
  by(along,
     {{part(down, board, down.from, down.stop(full - 1)), extent.columns},
      {part(down, board, below, down.stop(full)), count_in_row(grid, full)}},
     steps);
  Row above = down;
  above.end = down.stop(full - 1);
  const Rect block = part(down, board, down.from, above.end);
  std::vector<Strip> columns;
  for (int c = 0; c < extent.columns; ++c) {
    columns.push_back({part(along, block, along.start(c), along.stop(c)), full});
  }
  by(above, columns, steps);
  return steps;
}

/// Clockwise quarters that bring `to` where `from` was.
int quarters(Edge from, Edge to) {
  // Clockwise round the sheet: left, top, right, bottom. Turning it once brings the left edge up.
  return (static_cast<int>(from) - static_cast<int>(to) + 4) % 4;
}

Plan counted(const Grid& grid, std::vector<Step> steps) {
  Plan plan{grid, std::move(steps), 0, 0};
  Edge facing = Edge::top;
  for (Step& step : plan.steps) {
    plan.cuts += static_cast<int>(step.cuts.size());
    plan.settings += step.cuts.front().found == Found::by_fence ? 1 : 0;
    const Edge far = far_edge(grid, step.cuts.front());
    step.quarter_turns = quarters(facing, far);
    facing = far;
  }
  return plan;
}

bool better(const Plan& a, const Plan& b) {
  return a.cuts != b.cuts ? a.cuts < b.cuts : a.settings < b.settings;
}

/// What every way has to cut off: four sides at most.
int sides_of(const Grid& grid) {
  const Rect block = block_of(grid);
  return 2 + (block.right() < grid.sheet.width - epsilon ? 1 : 0) +
         (block.bottom() < grid.sheet.height - epsilon ? 1 : 0);
}

/// Pieces at the end when strips are cut across first: the cards, the sides, the gutters between
/// strips in one piece each, those within a strip apart.
int pieces_by_rows(const Grid& grid) {
  const int between_rows = grid.gutter_y > epsilon ? grid.rows - 1 : 0;
  const int within_rows = grid.gutter_x > epsilon ? grid.columns - 1 : 0;
  return sides_of(grid) + between_rows + grid.rows * (grid.columns + within_rows);
}

}  // namespace

bool is_taken(const Grid& grid, int column, int row) {
  const auto at = static_cast<std::size_t>(row * grid.columns + column);
  return grid.taken.empty() || (at < grid.taken.size() && grid.taken[at]);
}

Rect block_of(const Grid& grid) {
  const Extent extent = extent_of(grid);
  return covering(cell(grid, 0, 0),
                  cell(grid, std::max(extent.columns, 1) - 1, std::max(extent.rows, 1) - 1));
}

Edge far_edge(const Grid& grid, const Cut& cut) {
  if (cut.found == Found::by_fence) return cut.fence;
  const Rect block = block_of(grid);
  if (cut.run == Run::down) {
    return cut.at < block.centre().x ? Edge::right : Edge::left;
  }
  return cut.at < block.centre().y ? Edge::bottom : Edge::top;
}

Rect cell(const Grid& grid, int column, int row) {
  const Vec to{(grid.piece.width + grid.gutter_x) * column,
               (grid.piece.height + grid.gutter_y) * row};
  return {grid.at + to, grid.piece};
}

Plan plan_cuts(const Grid& grid, Prefer prefer) {
  if (extent_of(grid).columns < 1 || grid.piece.width <= epsilon || grid.piece.height <= epsilon) {
    throw std::logic_error("a grid to be cut has no pieces");
  }
  const Rect block = block_of(grid);
  if (!lies_in(block, Rect{{}, grid.sheet}) || grid.gutter_x < Mm{} || grid.gutter_y < Mm{} ||
      block.left() <= epsilon || block.top() <= epsilon) {
    throw std::logic_error("a grid to be cut does not lie inside its sheet");
  }
  const CutUp by = prefer == Prefer::fewest_settings ? chain : measure;
  Plan best = counted(grid, strips_across(grid, by));
  std::vector<Step> columns_first = strips_across(mirrored(grid), by);
  for (Step& step : columns_first) {
    for (Cut& cut : step.cuts) cut = mirrored(cut);
  }
  std::vector<std::vector<Step>> others{std::move(columns_first)};
  if (only_last_row_is_short(grid)) others.push_back(last_row_off(grid, by));
  for (std::vector<Step>& other : others) {
    Plan plan = counted(grid, std::move(other));
    if (better(plan, best)) best = std::move(plan);
  }
  return best;
}

int fewest_cuts(const Grid& grid) {
  return std::min(pieces_by_rows(grid), pieces_by_rows(mirrored(grid))) - 1;
}

Piling piling(int sheets, Mm caliper, const Tool& tool) {
  const double fit = std::floor((tool.pile.value + epsilon.value) / caliper.value);
  const int most = tool.pile_sheets.value_or(static_cast<int>(std::min(fit, 1e6)));
  const int at_once = std::clamp(most, 1, std::max(sheets, 1));
  return {at_once, (sheets + at_once - 1) / at_once};
}

}  // namespace quoin::cut
