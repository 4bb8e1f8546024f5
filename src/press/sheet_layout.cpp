#include "press/sheet_layout.h"

#include <algorithm>
#include <stdexcept>

namespace quoin::press {
namespace {

constexpr Mm pin_inset{14};       // from both edges
constexpr Mm vernier_along{45};   // of a vernier's middle from the edge that it runs towards
constexpr Mm letter_inset_x{25};  // of corner letters
constexpr Mm letter_inset_y{11}, letter_behind_y{18};
constexpr Mm grid_inset_x{39}, grid_inset_y{45};
constexpr Mm words_width{112}, words_height{56};

/// Columns and rows of dots, about the middle of the sheet.
struct DotGrid {
  Point middle;
  Mm step_x, step_y;
  int columns = 0, rows = 0;

  [[nodiscard]] Point at(double column, double row) const {
    return {middle.x + step_x * (column - (columns - 1) / 2.0),
            middle.y + step_y * (row - (rows - 1) / 2.0)};
  }
};

DotGrid front_grid(Size paper) {
  const bool landscape = paper.width > paper.height;
  DotGrid grid{{paper.width / 2, paper.height / 2}, {}, {}, landscape ? 7 : 5, landscape ? 5 : 7};
  grid.step_x = (paper.width - grid_inset_x * 2) / (grid.columns - 1);
  grid.step_y = (paper.height - grid_inset_y * 2) / (grid.rows - 1);
  return grid;
}

/// The rows between those of the front.
DotGrid back_grid(Size paper) {
  DotGrid grid = front_grid(paper);
  --grid.rows;
  return grid;
}

std::vector<Point> dots_on(const DotGrid& grid, Rect words) {
  const Rect taken = grown(words, dot_size / 2);
  std::vector<Point> dots;
  for (int row = 0; row < grid.rows; ++row) {
    for (int column = 0; column < grid.columns; ++column) {
      const Point at = grid.at(column, row);
      if (!overlap(taken, grown(Rect{at, {}}, dot_size / 2))) dots.push_back(at);
    }
  }
  return dots;
}

/// Eight between the outermost columns, in the two rows at either end.
std::vector<CodeMark> codes_on(const DotGrid& grid, int first) {
  std::vector<CodeMark> codes;
  for (const int row : {0, 1, grid.rows - 2, grid.rows - 1}) {
    for (const double column : {0.5, grid.columns - 1.5}) {
      codes.push_back({first + static_cast<int>(codes.size()), grid.at(column, row)});
    }
  }
  return codes;
}

std::array<Point, 6> pin_places(Size paper) {
  const Mm left = pin_inset, right = paper.width - pin_inset;
  const Mm top = pin_inset, bottom = paper.height - pin_inset;
  const Mm side = paper.height / 2 - Mm{25};
  return {Point{left, top},     {right, top}, {left, bottom},
          Point{right, bottom}, {left, side}, {right, side}};
}

/// The corners clockwise from the top left, `x` and `y` in from the edges.
std::array<Point, 4> corners(Size paper, Mm x, Mm y) {
  const Mm right = paper.width - x, bottom = paper.height - y;
  return {Point{x, y}, {right, y}, {right, bottom}, {x, bottom}};
}

std::array<CornerLetter, 4> letters_from(char first, const std::array<Point, 4>& places) {
  std::array<CornerLetter, 4> all;
  for (std::size_t i = 0; i < 4; ++i) all[i] = {static_cast<char>(first + i), places[i]};
  return all;
}

std::array<Vernier, 8> vernier_places(Size paper) {
  const auto across = corners(paper, vernier_along, pin_inset);
  const auto down = corners(paper, pin_inset, vernier_along);
  std::array<Vernier, 8> all;
  for (std::size_t i = 0; i < 4; ++i) {
    all[2 * i] = {static_cast<int>(2 * i + 1), across[i]};
    all[2 * i + 1] = {static_cast<int>(2 * i + 2), down[i]};
  }
  return all;
}

/// The shorter bar along the shorter side of the paper.
std::array<ScaleBar, 2> bar_places(Size paper) {
  const bool landscape = paper.width > paper.height;
  const Mm short_bar{150}, long_bar{200};
  const Mm across = landscape ? long_bar : short_bar, down = landscape ? short_bar : long_bar;
  const ScaleBar level{across, {(paper.width - across) / 2, Mm{31}}, false};
  const ScaleBar upright{down, {Mm{27}, (paper.height - down) / 2}, true};
  return landscape ? std::array{upright, level} : std::array{level, upright};
}

}  // namespace

const std::array<std::uint32_t, 16>& code_bits() {
  static const std::array<std::uint32_t, 16> all{
      0x4de99,   0x1878f2a, 0x180b3ea, 0x1bad46,  0x1390c4d, 0x163e6f, 0x5a8af3, 0xa73792,
      0x18f06df, 0x24ff25,  0x716b0d,  0x1f66609, 0xbd3440,  0x681eb4, 0x7e0f5d, 0x1d7e1a};
  return all;
}

bool takes_sheet(Size paper) {
  const Mm shorter = std::min(paper.width, paper.height);
  const Mm longer = std::max(paper.width, paper.height);
  return shorter >= Mm{200} && shorter <= Mm{330} && longer >= Mm{250} && longer <= Mm{480};
}

SheetLayout sheet_layout(Size paper) {
  if (!takes_sheet(paper)) throw std::logic_error("the measuring sheet has no room on that paper");
  SheetLayout sheet;
  sheet.paper = paper;
  sheet.words = {{(paper.width - words_width) / 2, (paper.height - words_height) / 2},
                 {words_width, words_height}};
  const DotGrid front = front_grid(paper), back = back_grid(paper);
  sheet.dots = {dots_on(front, sheet.words), dots_on(back, sheet.words)};
  sheet.codes = {codes_on(front, 0), codes_on(back, 8)};
  sheet.pins = pin_places(paper);
  sheet.verniers = vernier_places(paper);
  sheet.letters = letters_from('A', corners(paper, letter_inset_x, letter_inset_y));
  sheet.letters_behind = letters_from('E', corners(paper, letter_inset_x, letter_behind_y));
  sheet.bars = bar_places(paper);
  return sheet;
}

Affine turned_over(Size paper, game::FlipEdge flip) {
  const bool upright_edge = (flip == game::FlipEdge::long_edge) == (paper.height >= paper.width);
  return upright_edge ? Affine{-1, 0, 0, 1, paper.width, {}}
                      : Affine{1, 0, 0, -1, {}, paper.height};
}

}  // namespace quoin::press
