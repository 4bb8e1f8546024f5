#include "pack/mat_marks.h"

#include <fmt/format.h>

#include <algorithm>

#include "pack/net_lines.h"

namespace quoin::pack {
namespace {

using sheets::Tile;
using sheets::Tiling;

constexpr Mm hair{0.15};

/// One seam of a tile, seen with the seam level and the strip beyond it above: x runs along the
/// seam, y is 0 on it and negative in the strip.
struct Seam {
  Affine map;   ///< to the frame of the mat
  Mm length;    ///< of the sheet along it
  Mm depth;     ///< of the strip beyond it
  Mm from, to;  ///< of what is shown of the sheet, along it
};

Item filled_shape(Path path, Colour colour) {
  ShapeItem shape;
  shape.path = std::move(path);
  shape.fill = colour;
  Item item;
  item.layer = Layer::mark;
  item.what = std::move(shape);
  return item;
}

void add_on(std::vector<Item>& to, std::vector<Item> items, const Affine& map) {
  for (Item& item : items) {
    item.map = then(item.map, map);
    to.push_back(std::move(item));
  }
}

/// Words in a strip about a place, on a white ground so that they are read over any drawing.
void add_words(std::vector<Item>& items, const std::string& words, Point middle, Mm room,
               Mm depth) {
  WordsLook look;
  look.type_size = std::min(Mm{2.5}, depth * 0.62);
  // English takes 0.44 to 0.46 of its type size a letter in the house face.
  const Mm wide = std::min(room, look.type_size * (0.5 * static_cast<double>(words.size()) + 1));
  const Mm high = std::min(depth - hair * 4, look.type_size * 1.3);
  items.push_back(
      filled_shape(Path::rectangle({middle - Vec{wide / 2, high / 2}, {wide, high}}), white));
  items.push_back(words_item(words, middle, {wide, high}, look));
}

/// An arrow head in the strip, its tip on the seam; what would reach past the seam is cut off.
void add_arrow(std::vector<Item>& items, Mm x, Mm depth) {
  const Mm high = std::min(Mm{2.2}, depth - hair * 2), half = high * 0.45;
  const Path head = Path::polygon({{x, Mm{}}, {x + half, -high}, {x - half, -high}});
  // A tenth short of it: where a viewer rounds a clip outwards, nothing is seen all the same.
  const Path strip = Path::rectangle({{x - high, -depth}, {high * 2, depth - Mm{0.1}}});
  for (Item arrow :
       {line_item(head, {Layer::mark, white, Mm{0.6}, {}}), filled_shape(head, black)}) {
    arrow.clip = strip;
    items.push_back(std::move(arrow));
  }
}

/// The edge of the upper sheet: all beyond the seam is waste.
std::vector<Item> trimmed_edge(const Seam& seam, const std::string& words) {
  std::vector<Item> items;
  Item veil = filled_shape(Path::rectangle({{Mm{}, -seam.depth}, {seam.length, seam.depth}}),
                           Colour{1, 1, 1, 0.72});
  items.push_back(std::move(veil));
  items.push_back(line_item(between({Mm{}, -hair / 2}, {seam.length, -hair / 2}),
                            {Layer::mark, black, hair, {}}));
  const Mm middle = (seam.from + seam.to) / 2;
  add_words(items, words, {middle, -seam.depth / 2}, seam.to - seam.from, seam.depth);
  return items;
}

/// The edge of the lower sheet: its neighbour covers the strip up to the arrows.
std::vector<Item> covered_edge(const Seam& seam, const std::string& words) {
  std::vector<Item> items;
  const Mm shown = seam.to - seam.from;
  for (const double share : {0.12, 0.3, 0.7, 0.88}) {
    add_arrow(items, seam.from + shown * share, seam.depth);
  }
  add_words(items, words, {(seam.from + seam.to) / 2, -seam.depth / 2}, shown * 0.34, seam.depth);
  return items;
}

std::string neighbour(const Tile& tile, int rows, int columns) {
  return sheets::row_letters(tile.row + rows) + std::to_string(tile.column + columns + 1);
}

class TileMarks {
 public:
  TileMarks(const Tiling& tiling, const Tile& tile) : tiling_(tiling), tile_(tile) {}

  std::vector<Item> draw() {
    add_seams();
    add_corner();
    add_diamonds();
    add_outer_line();
    return std::move(items_);
  }

 private:
  [[nodiscard]] bool has_left() const { return tile_.column > 0; }
  [[nodiscard]] bool has_above() const { return tile_.row > 0; }
  [[nodiscard]] bool has_right() const { return tile_.column + 1 < tiling_.columns; }
  [[nodiscard]] bool has_below() const { return tile_.row + 1 < tiling_.rows; }
  [[nodiscard]] Mm depth() const { return tiling_.overlap / 2; }

  /// The part of the sheet that shows the mat.
  [[nodiscard]] Rect seen() const {
    return overlap(tile_.shown, Rect{{}, tiling_.whole}).value_or(tile_.shown);
  }

  /// Seams as the maker reads them with the strip beyond at the top.
  [[nodiscard]] Seam above() const {
    const Rect& printed = tile_.printed;
    return {Affine::move(Point{printed.left(), tile_.shown.top()} - Point{}), printed.size.width,
            depth(), seen().left() - printed.left(), seen().right() - printed.left()};
  }
  [[nodiscard]] Seam below() const {
    const Rect& printed = tile_.printed;
    const Affine turned =
        then(Affine::turn(Angle::degrees(180)),
             Affine::move(Point{printed.right(), tile_.shown.bottom()} - Point{}));
    return {turned, printed.size.width, depth(), printed.right() - seen().right(),
            printed.right() - seen().left()};
  }
  [[nodiscard]] Seam left() const {
    const Rect& printed = tile_.printed;
    const Affine turned = then(Affine::turn(Angle::degrees(-90)),
                               Affine::move(Point{tile_.shown.left(), printed.bottom()} - Point{}));
    return {turned, printed.size.height, depth(), printed.bottom() - seen().bottom(),
            printed.bottom() - seen().top()};
  }
  [[nodiscard]] Seam right() const {
    const Rect& printed = tile_.printed;
    const Affine turned = then(Affine::turn(Angle::degrees(90)),
                               Affine::move(Point{tile_.shown.right(), printed.top()} - Point{}));
    return {turned, printed.size.height, depth(), seen().top() - printed.top(),
            seen().bottom() - printed.top()};
  }

  void add_seams() {
    const auto covered = [&](int rows, int columns) {
      return fmt::format("{}: {} goes over this edge, up to the arrows", tile_.name,
                         neighbour(tile_, rows, columns));
    };
    const auto trimmed = [&](int rows, int columns) {
      return fmt::format("{}: trim along the line; this edge goes over {}", tile_.name,
                         neighbour(tile_, rows, columns));
    };
    if (has_right()) add_on(items_, covered_edge(right(), covered(0, 1)), right().map);
    if (has_below()) add_on(items_, covered_edge(below(), covered(1, 0)), below().map);
    if (has_left()) add_on(items_, trimmed_edge(left(), trimmed(0, -1)), left().map);
    if (has_above()) add_on(items_, trimmed_edge(above(), trimmed(-1, 0)), above().map);
  }

  /// Where the corner of the sheet goes that lies to the right and below.
  void add_corner() {
    if (!has_right() || !has_below()) return;
    const Point at{tile_.shown.right(), tile_.shown.bottom()};
    const Mm arm = depth() * 0.9;
    Path path;
    path.move_to(at + Vec{arm, Mm{}}).line_to(at).line_to(at + Vec{Mm{}, arm});
    // All but the quarter that is seen in the end.
    const Mm far = depth();
    const Path hidden =
        Path::polygon({at + Vec{Mm{}, -far}, at + Vec{far, -far}, at + Vec{far, far},
                       at + Vec{-far, far}, at + Vec{-far, Mm{}}, at});
    for (const auto& [ink, width] : {std::pair(white, Mm{0.7}), std::pair(black, Mm{0.25})}) {
      Item line = line_item(path, {Layer::mark, ink, width, {}});
      line.clip = hidden;
      items_.push_back(std::move(line));
    }
  }

  /// Half a diamond with its point outwards, on this sheet's side of a seam's end: `along` leads
  /// from the seam onto the sheet, `out` away from the mat.
  void add_half_diamond(Point on_edge, Vec along, Vec out) {
    constexpr double from = 0.5, to = 2.7, half = 1.6;
    const Point middle = on_edge + out * ((from + to) / 2);
    const std::vector<Point> corners{on_edge + out * from, middle + along * half,
                                     on_edge + out * to};
    Item halo = line_item(Path::polygon(corners), {Layer::mark, white, Mm{0.5}, {}});
    Item diamond = filled_shape(Path::polygon(corners), black);
    const Path window = Path::rectangle(tile_.shown);
    halo.clip = window;
    diamond.clip = window;
    items_.push_back(std::move(halo));
    items_.push_back(std::move(diamond));
  }

  void add_diamonds() {
    const Vec right{Mm{1}, Mm{}}, down{Mm{}, Mm{1}}, left = right * -1, up = down * -1;
    const Mm width = tiling_.whole.width, height = tiling_.whole.height;
    const auto upright_seam = [&](Mm x, Vec onto) {
      if (tile_.row == 0) add_half_diamond({x, Mm{}}, onto, up);
      if (!has_below()) add_half_diamond({x, height}, onto, down);
    };
    const auto level_seam = [&](Mm y, Vec onto) {
      if (tile_.column == 0) add_half_diamond({Mm{}, y}, onto, left);
      if (!has_right()) add_half_diamond({width, y}, onto, right);
    };
    if (has_left()) upright_seam(tile_.shown.left(), right);
    if (has_right()) upright_seam(tile_.shown.right(), left);
    if (has_above()) level_seam(tile_.shown.top(), down);
    if (has_below()) level_seam(tile_.shown.bottom(), up);
  }

  /// Outside of the mat, so that who cuts along it on the mat's side cuts it away.
  void add_outer_line() {
    const Rect mat{{}, tiling_.whole};
    const auto add = [&](Colour ink, Mm out) {
      Item line = line_item(Path::rectangle(grown(mat, out)), {Layer::cut, ink, hair, {}});
      line.clip = Path::rectangle(tile_.shown);
      items_.push_back(std::move(line));
    };
    add(black, hair / 2);
    add(white, hair * 1.5);
  }

  const Tiling& tiling_;
  const Tile& tile_;
  std::vector<Item> items_;
};

}  // namespace

std::vector<Item> tile_marks(const Tiling& tiling, const Tile& tile) {
  return TileMarks(tiling, tile).draw();
}

}  // namespace quoin::pack
