#include "sheets/nest.h"

#include <algorithm>
#include <cmath>
#include <cstdint>

namespace quoin::sheets {
namespace {

constexpr double cell_size = 1;         // mm
constexpr double half_diagonal = 0.71;  // of a cell, mm
constexpr int cell_rim = 2;  // cells round the bounds of a piece that its growth may reach

/// Rows of bits, a bit a cell.
class Cells {
 public:
  Cells(int width, int height)
      : width_(width),
        height_(height),
        words_(static_cast<std::size_t>(width + 63) / 64),
        bits_(words_ * static_cast<std::size_t>(height)) {}

  [[nodiscard]] int width() const { return width_; }
  [[nodiscard]] int height() const { return height_; }

  void set(int from, int to, int row) {
    for (int x = std::max(from, 0); x < std::min(to, width_); ++x) {
      bits_[at(row) + static_cast<std::size_t>(x) / 64] |= std::uint64_t{1} << (x % 64);
    }
  }
  [[nodiscard]] bool any(int x, int row) const {
    return (bits_[at(row) + static_cast<std::size_t>(x) / 64] >> (x % 64) & 1) != 0;
  }

  /// Whether a cell of `piece`, its corner at (x, y), is one of these.
  [[nodiscard]] bool meets(const Cells& piece, int x, int y) const {
    for (int row = 0; row < piece.height_; ++row) {
      if (row_meets(piece, x, y, row)) return true;
    }
    return false;
  }
  void add(const Cells& piece, int x, int y) {
    for (int row = 0; row < piece.height_; ++row) {
      for (int column = 0; column < piece.width_; ++column) {
        if (piece.any(column, row)) set(x + column, x + column + 1, y + row);
      }
    }
  }

 private:
  [[nodiscard]] std::size_t at(int row) const { return words_ * static_cast<std::size_t>(row); }

  [[nodiscard]] bool row_meets(const Cells& piece, int x, int y, int row) const {
    const std::size_t skip = static_cast<std::size_t>(x) / 64,
                      shift = static_cast<std::size_t>(x) % 64;
    const std::size_t mine = at(y + row), theirs = piece.at(row);
    for (std::size_t w = 0; w < piece.words_; ++w) {
      const std::uint64_t bits = piece.bits_[theirs + w];
      if (w + skip < words_ && (bits_[mine + skip + w] & bits << shift) != 0) return true;
      const bool over = shift != 0 && w + skip + 1 < words_;
      if (over && (bits_[mine + skip + w + 1] & bits >> (64 - shift)) != 0) return true;
    }
    return false;
  }

  int width_, height_;
  std::size_t words_;
  std::vector<std::uint64_t> bits_;
};

/// A piece at one of its turns, with its cells: the corner of cell (cell_rim, cell_rim) is the top
/// left of its bounds.
struct Turned {
  Affine turn;
  Rect bounds;
  Cells cells;
};

void add_crossings(const Polygon& ring, double y, std::vector<double>& crossings) {
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const Point a = ring[i], b = ring[(i + 1) % ring.size()];
    if ((a.y.value <= y) == (b.y.value <= y)) continue;
    const double along = (y - a.y.value) / (b.y.value - a.y.value);
    crossings.push_back(a.x.value + (b.x.value - a.x.value) * along);
  }
}

/// Cells whose middles lie in the grown shape: among them all that the shape itself touches.
Cells cells_of(const Footprint& shape, Rect box) {
  const auto count = [](Mm length) {
    return static_cast<int>(std::ceil(length.value / cell_size)) + cell_rim * 2;
  };
  Cells cells(count(box.size.width), count(box.size.height));
  const Footprint wide = grown(shape, Mm{half_diagonal});
  for (int row = 0; row < cells.height(); ++row) {
    const double y = box.top().value + (row - cell_rim + 0.5) * cell_size;
    std::vector<double> crossings;
    for (const Region& region : wide) {
      add_crossings(region.outer, y, crossings);
      for (const Polygon& hole : region.holes) add_crossings(hole, y, crossings);
    }
    std::sort(crossings.begin(), crossings.end());
    for (std::size_t i = 0; i + 1 < crossings.size(); i += 2) {
      const auto column = [&](double x) {
        return static_cast<int>(std::ceil((x - box.left().value) / cell_size + cell_rim - 0.5));
      };
      cells.set(column(crossings[i]), column(crossings[i + 1]), row);
    }
  }
  return cells;
}

std::vector<Turned> turns_of(const Footprint& piece) {
  std::vector<Turned> turns;
  for (const int degrees : {0, 90, 180, 270}) {
    const Affine turn = Affine::turn(Angle::degrees(degrees));
    const Footprint turned = mapped(piece, turn);
    const Rect box = bounds(turned);
    turns.push_back({turn, box, cells_of(turned, box)});
  }
  return turns;
}

struct Spot {
  int turn = 0, x = 0, y = 0;
};

/// The cells of a room while pieces are put into it.
class Nest {
 public:
  explicit Nest(Rect room)
      : room_(room),
        taken_(across(room.size.width) + cell_rim * 2 + 1,
               across(room.size.height) + cell_rim * 2 + 1) {}

  /// The topmost, then leftmost place of the turned piece.
  [[nodiscard]] std::optional<Spot> free_spot(const Turned& piece) const {
    const Mm spare_x = room_.size.width - piece.bounds.size.width;
    const Mm spare_y = room_.size.height - piece.bounds.size.height;
    if (spare_x < -epsilon || spare_y < -epsilon) return std::nullopt;
    const int last_x = spare(spare_x), last_y = spare(spare_y);
    for (int y = 0; y <= last_y; ++y) {
      for (int x = 0; x <= last_x; ++x) {
        if (!taken_.meets(piece.cells, x, y)) return Spot{0, x, y};
      }
    }
    return std::nullopt;
  }

  [[nodiscard]] Affine put(const Turned& piece, Spot spot) {
    taken_.add(piece.cells, spot.x, spot.y);
    const Point at = room_.at + Vec{Mm{spot.x * cell_size}, Mm{spot.y * cell_size}};
    return then(piece.turn, Affine::move(at - piece.bounds.at));
  }

 private:
  static int across(Mm length) { return static_cast<int>(std::ceil(length.value / cell_size)); }
  static int spare(Mm length) {
    return std::max(0, static_cast<int>(std::floor((length + epsilon).value / cell_size)));
  }

  Rect room_;
  Cells taken_;
};

/// The free place of a further piece that reaches down least, then right least.
std::optional<Spot> best_spot(const Nest& nest, const std::vector<Turned>& turns) {
  std::optional<Spot> best;
  std::pair<double, double> best_reach;
  for (int turn = 0; turn < std::ssize(turns); ++turn) {
    const Turned& piece = turns[static_cast<std::size_t>(turn)];
    const auto spot = nest.free_spot(piece);
    if (!spot) continue;
    const std::pair reach{spot->y + piece.bounds.size.height.value,
                          spot->x + piece.bounds.size.width.value};
    if (best && !(reach < best_reach)) continue;
    best = Spot{turn, spot->x, spot->y};
    best_reach = reach;
  }
  return best;
}

std::optional<std::vector<Affine>> nested_from(const std::vector<std::vector<Turned>>& pieces,
                                               Rect room, std::size_t first_turn) {
  Nest nest(room);
  const Turned& first = pieces.front()[first_turn];
  const auto spot = nest.free_spot(first);
  if (!spot) return std::nullopt;
  std::vector<Affine> maps{nest.put(first, *spot)};
  for (std::size_t i = 1; i < pieces.size(); ++i) {
    const auto best = best_spot(nest, pieces[i]);
    if (!best) return std::nullopt;
    maps.push_back(nest.put(pieces[i][static_cast<std::size_t>(best->turn)], *best));
  }
  return maps;
}

void move_to_middle(const std::vector<Footprint>& pieces, Rect room, std::vector<Affine>& maps) {
  std::optional<Rect> all;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    const Rect one = bounds(mapped(pieces[i], maps[i]));
    all = all ? covering(*all, one) : one;
  }
  if (!all) return;
  const Affine move = Affine::move(room.centre() - all->centre());
  for (Affine& map : maps) map = then(map, move);
}

}  // namespace

Footprint mapped(const Footprint& footprint, const Affine& map) {
  Footprint laid = footprint;
  for (Region& region : laid) {
    for (Point& p : region.outer) p = map(p);
    for (Polygon& hole : region.holes) {
      for (Point& p : hole) p = map(p);
    }
  }
  return laid;
}

Rect bounds(const Footprint& footprint) {
  std::optional<Rect> all;
  for (const Region& region : footprint) {
    const Rect one = bounds(region.outer);
    all = all ? covering(*all, one) : one;
  }
  return all.value_or(Rect{});
}

std::optional<std::vector<Affine>> nest(const std::vector<Footprint>& pieces, Rect room) {
  if (pieces.empty()) return std::vector<Affine>{};
  std::vector<std::vector<Turned>> turned;
  for (const Footprint& piece : pieces) turned.push_back(turns_of(piece));
  for (const std::size_t first_turn : {0U, 1U}) {
    auto maps = nested_from(turned, room, first_turn);
    if (!maps) continue;
    move_to_middle(pieces, room, *maps);
    return maps;
  }
  return std::nullopt;
}

}  // namespace quoin::sheets
