#include <fmt/format.h>

#include <algorithm>

#include "guide/slab.h"

namespace quoin::guide {
namespace {

constexpr Mm step_disc{6.4}, step_hang{8.6};
constexpr int most_step_lines = 12;

Item number_disc(Point middle) {
  const Vec half{step_disc / 2, step_disc / 2};
  return shape(Path::ellipse({middle - half, {step_disc, step_disc}}), accent);
}

/// A number in a step_disc whose top left corner is at a place.
void put_number(Slab& slab, int number, Vec at, Setting& setting) {
  put(slab, number_disc({step_disc / 2, step_disc / 2}), at);
  TextStyle style = style_of(Voice::number);
  style.align = TextAlign::centre;
  SetWords digits = setting.set(fmt::format("{}", number), style, step_disc);
  put(slab, std::move(digits.item), at + Vec{Mm{}, (step_disc - digits.height) / 2});
}

/// One step at its place in a row: how the words continue when they are long.
struct Cell {
  std::vector<SetWords> words;
  double scale = 1;
  Size picture;
};

/// Everything that the rows of one list of steps have in common.
struct Rows {
  const Steps& steps;
  const Look& look;
  Setting& setting;
  int across = 2;

  [[nodiscard]] bool counted() const { return steps.numbers == Steps::Numbers::counted; }
  [[nodiscard]] Mm share() const { return look.share(across); }
  [[nodiscard]] bool beside() const { return across == 1; }
  /// Of a picture that stands beside its words.
  [[nodiscard]] Mm picture_share() const {
    const bool is_wide = steps.pictures == Steps::Pictures::two_thirds;
    return is_wide ? look.share(3) * 2 + gutter : look.share(2);
  }
  [[nodiscard]] Size picture_room() const {
    const Mm most = look.column.size.height * (across == 2 ? 0.4 : 0.3);
    return {beside() ? picture_share() : share(), most};
  }
  [[nodiscard]] Mm words_width() const {
    const Mm width = beside() ? look.column.size.width - picture_share() - gutter : share();
    return counted() ? width - step_hang : width;
  }
  [[nodiscard]] Vec words_at() const { return {counted() ? step_hang : Mm{}, Mm{}}; }
};

Cell cell_of(const Step& step, const Rows& rows) {
  Cell cell;
  if (!step.words.empty()) {
    cell.words =
        rows.setting.parts(step.words, style_of(Voice::body), rows.words_width(), most_step_lines);
  }
  cell.scale = scale_in(step.picture, rows.picture_room());
  cell.picture = {step.picture.size.width * cell.scale, step.picture.size.height * cell.scale};
  return cell;
}

Mm height_of(const SetWords& words) { return words.first_line * words.lines; }

/// Number and words of a step with their top left corner at a place.
void put_words(Slab& slab, const Rows& rows, Cell& cell, int number, Vec at) {
  if (rows.counted()) put_number(slab, number, at + Vec{Mm{}, Mm{-0.6}}, rows.setting);
  if (cell.words.empty()) return;
  put(slab, std::move(cell.words.front().item), at + rows.words_at());
}

Slab row_slab(const Rows& rows, std::vector<Cell>& cells, std::size_t first) {
  Slab slab;
  slab.kind = SlabKind::steps;
  slab.gap = grid_step * 2;
  Mm pictures, words = rows.counted() ? step_disc : Mm{};
  for (const Cell& cell : cells) {
    pictures = std::max(pictures, cell.picture.height);
    if (!cell.words.empty()) words = std::max(words, height_of(cell.words.front()));
  }
  const Mm between = rows.beside() ? Mm{} : Mm{3};
  for (std::size_t i = 0; i < cells.size(); ++i) {
    Cell& cell = cells[i];
    const Figure& figure = rows.steps.steps[first + i].picture;
    const Mm left = (rows.share() + gutter) * static_cast<double>(i);
    const int number = static_cast<int>(first + i) + 1;
    const Size room = rows.picture_room();
    // Pictures of one row stand on one line, each in the middle of its column.
    const Vec picture{left + (room.width - cell.picture.width) / 2,
                      rows.beside() ? Mm{} : pictures - cell.picture.height};
    put(slab, figure, picture, cell.scale);
    const Vec beside{room.width + gutter, Mm{0.6}};
    put_words(slab, rows, cell, number, rows.beside() ? beside : Vec{left, pictures + between});
  }
  slab.height = on_grid(rows.beside() ? std::max(pictures, words) : pictures + between + words);
  return slab;
}

/// What of the words of a row found no room beside their pictures, step after step.
void put_rest(std::vector<Slab>& slabs, const Rows& rows, std::vector<Cell>& cells) {
  for (Cell& cell : cells) {
    for (std::size_t part = 1; part < cell.words.size(); ++part) {
      Slab slab;
      slab.height = on_grid(height_of(cell.words[part]));
      put(slab, std::move(cell.words[part].item), rows.words_at());
      slabs.push_back(std::move(slab));
    }
  }
}

}  // namespace

std::vector<Slab> step_slabs(const Steps& steps, const Look& look, Setting& setting) {
  const Rows rows{steps, look, setting, std::clamp(steps.across, 1, 4)};
  std::vector<Slab> slabs;
  const auto across = static_cast<std::size_t>(rows.across);
  for (std::size_t first = 0; first < steps.steps.size(); first += across) {
    std::vector<Cell> cells;
    for (std::size_t i = first; i < std::min(first + across, steps.steps.size()); ++i) {
      cells.push_back(cell_of(steps.steps[i], rows));
    }
    slabs.push_back(row_slab(rows, cells, first));
    put_rest(slabs, rows, cells);
  }
  return slabs;
}

}  // namespace quoin::guide
