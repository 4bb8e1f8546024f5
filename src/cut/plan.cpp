#include "cut/plan.h"

#include <algorithm>
#include <cmath>
#include <stdexcept>

namespace quoin::cut {
namespace {

/// The same grid with rows and columns changed over, and cuts changed back.
Grid mirrored(const Grid& grid) {
  return {turned(grid.sheet), grid.rows,     grid.columns,          turned(grid.piece),
          grid.gutter_y,      grid.gutter_x, {grid.at.y, grid.at.x}};
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
  int count;
  Mm end;  ///< where the board ends: past the last piece when waste is left there
  [[nodiscard]] Mm start(int i) const { return from + (piece + gutter) * i; }
  [[nodiscard]] Mm stop(int i) const { return start(i) + piece; }
};

/// The part of `strip` between two places along the row.
Rect part(const Row& row, Rect strip, Mm from, Mm to) {
  if (row.run == Run::down) {
    return rect_between({from, strip.top()}, {to, strip.bottom()});
  }
  return rect_between({strip.left(), from}, {strip.right(), to});
}

Cut fence_cut(const Row& row, Rect strip, Mm from, Mm to, Mm at) {
  return {row.run,
          at,
          part(row, strip, from, to),
          Found::by_fence,
          row.run == Run::down ? Edge::left : Edge::top,
          at - from};
}

/// A piece with its gutter is cut off again and again at one setting; the next fresh edge goes
/// against the fence each time. A second setting takes the gutters off.
void chain(const Row& row, const std::vector<Rect>& strips, std::vector<Step>& steps) {
  const bool waste_last = row.end > row.stop(row.count - 1) + epsilon;
  Step parting, trimming;
  for (const Rect& strip : strips) {
    for (int i = 0; i + 1 < row.count; ++i) {
      parting.cuts.push_back(fence_cut(row, strip, row.start(i), row.end, row.start(i + 1)));
    }
    for (int i = 0; i < row.count; ++i) {
      const bool last = i + 1 == row.count;
      const bool has_waste = last ? waste_last : row.gutter > epsilon;
      if (!has_waste) continue;
      const Mm to = last ? row.end : row.start(i + 1);
      trimming.cuts.push_back(fence_cut(row, strip, row.start(i), to, row.stop(i)));
    }
  }
  const bool one_setting = row.gutter <= epsilon && !parting.cuts.empty();
  if (one_setting) {
    for (Cut& cut : trimming.cuts) parting.cuts.push_back(cut);
    trimming.cuts.clear();
  }
  for (Step* step : {&parting, &trimming}) {
    if (!step->cuts.empty()) steps.push_back(std::move(*step));
  }
}

/// The farthest line first, each measured from the one fresh edge.
void measure(const Row& row, const std::vector<Rect>& strips, std::vector<Step>& steps) {
  std::vector<Mm> lines;
  const bool waste_last = row.end > row.stop(row.count - 1) + epsilon;
  if (waste_last) lines.push_back(row.stop(row.count - 1));
  for (int i = row.count - 1; i > 0; --i) {
    lines.push_back(row.start(i));
    if (row.gutter > epsilon) lines.push_back(row.stop(i - 1));
  }
  for (std::size_t k = 0; k < lines.size(); ++k) {
    Step step;
    for (const Rect& strip : strips) {
      const Mm to = k == 0 ? row.end : lines[k - 1];
      step.cuts.push_back(fence_cut(row, strip, row.from, to, lines[k]));
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

/// Rows first: strips across, then pieces out of each strip.
std::vector<Step> strips_across(const Grid& grid, Prefer prefer) {
  std::vector<Step> steps;
  const Rect first = cell(grid, 0, 0), last = cell(grid, grid.columns - 1, grid.rows - 1);
  Rect rest{{}, grid.sheet};
  steps.push_back(mark_cut(Run::down, first.left(), rest));
  rest = rect_between({first.left(), rest.top()}, {rest.right(), rest.bottom()});
  steps.push_back(mark_cut(Run::across, first.top(), rest));
  rest = rect_between({rest.left(), first.top()}, {rest.right(), rest.bottom()});
  if (last.right() < rest.right() - epsilon) {
    steps.push_back(mark_cut(Run::down, last.right(), rest));
    rest = rect_between({rest.left(), rest.top()}, {last.right(), rest.bottom()});
  }
  const Row down{Run::across,   first.top(), grid.piece.height,
                 grid.gutter_y, grid.rows,   rest.bottom()};
  const auto by = prefer == Prefer::fewest_settings ? chain : measure;
  by(down, {rest}, steps);
  std::vector<Rect> strips;
  for (int r = 0; r < grid.rows; ++r)
    strips.push_back(part(down, rest, down.start(r), down.stop(r)));
  const Row along{Run::down,     first.left(), grid.piece.width,
                  grid.gutter_x, grid.columns, rest.right()};
  by(along, strips, steps);
  return steps;
}

/// Which edge lies against the fence, away from the maker; a mark is cut with the waste to the
/// right or towards the maker, so that the edge opposite lies there.
Edge far_edge(const Step& step) {
  const Cut& cut = step.cuts.front();
  if (cut.found == Found::by_fence) return cut.fence;
  return cut.run == Run::down ? Edge::left : Edge::top;
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
    step.quarter_turns = quarters(facing, far_edge(step));
    facing = far_edge(step);
  }
  return plan;
}

bool better(const Plan& a, const Plan& b) {
  return a.cuts != b.cuts ? a.cuts < b.cuts : a.settings < b.settings;
}

}  // namespace

Rect cell(const Grid& grid, int column, int row) {
  const Vec to{(grid.piece.width + grid.gutter_x) * column,
               (grid.piece.height + grid.gutter_y) * row};
  return {grid.at + to, grid.piece};
}

Plan plan_cuts(const Grid& grid, Prefer prefer) {
  if (grid.columns < 1 || grid.rows < 1 || grid.piece.width <= epsilon ||
      grid.piece.height <= epsilon) {
    throw std::logic_error("a grid to be cut has no pieces");
  }
  const Rect block = covering(cell(grid, 0, 0), cell(grid, grid.columns - 1, grid.rows - 1));
  if (!lies_in(block, Rect{{}, grid.sheet}) || grid.gutter_x < Mm{} || grid.gutter_y < Mm{} ||
      block.left() <= epsilon || block.top() <= epsilon) {
    throw std::logic_error("a grid to be cut does not lie inside its sheet");
  }
  Plan across = counted(grid, strips_across(grid, prefer));
  std::vector<Step> other = strips_across(mirrored(grid), prefer);
  for (Step& step : other) {
    for (Cut& cut : step.cuts) cut = mirrored(cut);
  }
  Plan down = counted(grid, std::move(other));
  return better(down, across) ? down : across;
}

int fewest_cuts(const Grid& grid) {
  const Rect block = covering(cell(grid, 0, 0), cell(grid, grid.columns - 1, grid.rows - 1));
  const int sides = 2 + (block.right() < grid.sheet.width - epsilon ? 1 : 0) +
                    (block.bottom() < grid.sheet.height - epsilon ? 1 : 0);
  const int c = grid.columns, r = grid.rows;
  const bool x = grid.gutter_x > epsilon, y = grid.gutter_y > epsilon;
  // Pieces at the end: the cards, a waste for each side that has one, and the gutters: those of
  // the strips in one piece, those within a strip apart.
  const int rows_first = (y ? r - 1 : 0) + (x ? r * (c - 1) : 0);
  const int columns_first = (x ? c - 1 : 0) + (y ? c * (r - 1) : 0);
  return r * c + sides + std::min(rows_first, columns_first) - 1;
}

Piling piling(int sheets, Mm caliper, const Tool& tool) {
  const double fit = std::floor((tool.pile.value + epsilon.value) / caliper.value);
  const int at_once = std::clamp(static_cast<int>(fit), 1, std::max(sheets, 1));
  return {at_once, (sheets + at_once - 1) / at_once};
}

}  // namespace quoin::cut
