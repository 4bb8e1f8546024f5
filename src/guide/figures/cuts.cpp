#include <algorithm>

#include "guide/figures/figures.h"

namespace quoin::guide {
namespace {

using cut::Cut;
using cut::Edge;

constexpr double piece_spread = 0.06;  ///< pieces are drawn so much farther from the sheet's middle
constexpr Mm picture_room{72};

bool has_card(const cut::Grid& grid, Rect piece) {
  for (int row = 0; row < grid.rows; ++row) {
    for (int column = 0; column < grid.columns; ++column) {
      if (lies_in(cut::cell(grid, column, row), piece)) return true;
    }
  }
  return false;
}

/// The two parts of what a cut goes through: before it and behind it along x or y.
std::pair<Rect, Rect> parts_of_cut(const Cut& one) {
  const Rect whole = one.through;
  if (one.run == cut::Run::down) {
    return {rect_between(whole.at, {one.at, whole.bottom()}),
            rect_between({one.at, whole.top()}, {whole.right(), whole.bottom()})};
  }
  return {rect_between(whole.at, {whole.right(), one.at}),
          rect_between({whole.left(), one.at}, {whole.right(), whole.bottom()})};
}

/// Takes the cuts of a step; waste is gone from the table.
void cut_through(const cut::Grid& grid, const cut::Step& step, std::vector<Rect>& pieces) {
  for (const Cut& one : step.cuts) {
    const auto found = std::find_if(pieces.begin(), pieces.end(), [&](Rect piece) {
      return lies_in(piece, one.through) && lies_in(one.through, piece);
    });
    if (found == pieces.end()) continue;
    pieces.erase(found);
    const auto [before, behind] = parts_of_cut(one);
    for (const Rect part : {before, behind}) {
      if (has_card(grid, part)) pieces.push_back(part);
    }
  }
}

std::vector<Rect> before_step(const cut::Plan& plan, std::size_t step) {
  std::vector<Rect> pieces{{{}, plan.grid.sheet}};
  for (std::size_t i = 0; i < step; ++i) cut_through(plan.grid, plan.steps[i], pieces);
  return pieces;
}

/// From the sheet to the picture: pieces apart, turned and made small.
class CutView {
 public:
  CutView(const cut::Plan& plan, Edge at_top) : sheet_(plan.grid.sheet) {
    const double reach = 1 + piece_spread;
    scale_ = picture_room / (std::max(sheet_.width, sheet_.height) * reach);
    const Point middle{sheet_.width / 2, sheet_.height / 2};
    const double turn = at_top == Edge::left    ? 90
                        : at_top == Edge::right ? -90
                        : at_top == Edge::top   ? 0
                                                : 180;
    const Affine about = Affine::move(Point{} - middle);
    map_ = then(then(about, Affine::turn(Angle::degrees(turn))), Affine::scale(scale_, scale_));
    const Rect all = bounds(map_, Rect{{}, sheet_});
    size_ = {all.size.width * reach + Mm{1}, all.size.height * reach + Mm{4}};
    map_ = then(map_, Affine::move({size_.width / 2, size_.height / 2 + Mm{1}}));
  }

  /// Of what lies on that piece.
  [[nodiscard]] Affine of(Rect piece) const {
    const Vec from{piece.centre().x - sheet_.width / 2, piece.centre().y - sheet_.height / 2};
    return then(Affine::move(from * piece_spread), map_);
  }
  [[nodiscard]] Size size() const { return size_; }

 private:
  Size sheet_, size_;
  double scale_ = 1;
  Affine map_;
};

/// Draws one piece: its cards, its marks where it has waste.
void draw_piece(Figure& figure, const Making& making, const std::vector<Item>& marks, Rect piece,
                const Affine& map) {
  const int fronts = static_cast<int>(making.fronts.size());
  for (const sheets::Placed& placed : making.plan.sheets.front().front.placed) {
    const auto window = overlap(placed.window, piece);
    if (!window) continue;
    figure.placed.push_back({placed.is_back ? fronts + placed.drawing : placed.drawing,
                             then(placed.map, map), bounds(map, *window)});
  }
  Item all;
  all.map = map;
  all.clip = Path::rectangle(piece);
  all.what = GroupItem{marks};
  figure.scene.items.push_back(std::move(all));
  figure.scene.items.push_back(
      line(Path::rectangle(bounds(map, piece)), Colour{0.35, 0.38, 0.42, 1}, Mm{0.2}));
}

/// Veils what falls away with a cut, and hatches it.
void draw_waste(Figure& figure, const cut::Grid& grid, const Cut& one, const Affine& map) {
  const auto [before, behind] = parts_of_cut(one);
  for (const Rect part : {before, behind}) {
    if (has_card(grid, part)) continue;
    const Rect seen = bounds(map, part);
    figure.scene.items.push_back(shape(Path::rectangle(seen), Colour{1, 1, 1, 0.6}));
    figure.scene.items.push_back(hatched(seen, Colour{0.35, 0.38, 0.42, 1}));
  }
}

/// The blade's way, over the edges of the piece.
void draw_blade(Figure& figure, const Cut& one, const Affine& map) {
  constexpr Mm over{2};
  const Rect whole = one.through;
  const bool down = one.run == cut::Run::down;
  const Point from = map(down ? Point{one.at, whole.top()} : Point{whole.left(), one.at});
  const Point to = map(down ? Point{one.at, whole.bottom()} : Point{whole.right(), one.at});
  const Vec along = (to - from) * (over / length(to - from));
  Path way;
  way.move_to(from - along).line_to(to + along);
  figure.scene.items.push_back(line(way, white, Mm{1.1}));
  figure.scene.items.push_back(line(std::move(way), alarm, Mm{0.55}));
}

/// A bar along the edge that lies against the fence.
void draw_fence(Figure& figure, const Cut& one, const Affine& map) {
  if (one.found != cut::Found::by_fence) return;
  const Rect seen = bounds(map, one.through);
  constexpr Mm thick{1.5};
  figure.scene.items.push_back(shape(Path::rectangle({{seen.left() - Mm{1}, seen.top() - thick},
                                                      {seen.size.width + Mm{2}, thick}}),
                                     accent));
}

/// The edge on the side of what stays, or none.
Edge opposite_of_waste(const cut::Grid& grid, const Cut& one) {
  const auto [before, behind] = parts_of_cut(one);
  const bool waste_first = !has_card(grid, before);
  if (one.run == cut::Run::down) return waste_first ? Edge::right : Edge::left;
  return waste_first ? Edge::bottom : Edge::top;
}

}  // namespace

cut::Grid cut_grid(const sheets::Plan& plan) {
  const sheets::Grid& grid = plan.grid;
  return {grid.paper,    grid.columns,  grid.rows, grid.trims.front().size,
          grid.gutter_x, grid.gutter_y, grid.at};
}

Edge far_edge(const cut::Plan& plan, std::size_t step) {
  const Cut& first = plan.steps[step].cuts.front();
  return first.found == cut::Found::by_fence ? first.fence : opposite_of_waste(plan.grid, first);
}

Figure cut_step(const Making& making, const cut::Plan& plan, std::size_t step) {
  const CutView view(plan, far_edge(plan, step));
  Figure figure;
  figure.size = view.size();
  const sheets::Slug slug{making.game.title, "front", {}, {}};
  const std::vector<Item> marks =
      sheets::marks(making.plan, sheets::Side::front, slug, house_family).items;
  std::vector<Rect> pieces = before_step(plan, step);
  for (const Rect piece : pieces) draw_piece(figure, making, marks, piece, view.of(piece));
  // Cuts that follow each other on one strip: it is drawn whole, and each has its line on it.
  for (const Cut& one : plan.steps[step].cuts) {
    const auto on = std::find_if(pieces.begin(), pieces.end(),
                                 [&](Rect piece) { return lies_in(one.through, piece); });
    if (on == pieces.end()) continue;
    draw_waste(figure, plan.grid, one, view.of(*on));
  }
  for (const Cut& one : plan.steps[step].cuts) {
    const auto on = std::find_if(pieces.begin(), pieces.end(),
                                 [&](Rect piece) { return lies_in(one.through, piece); });
    if (on == pieces.end()) continue;
    const bool is_whole = lies_in(*on, one.through);
    if (is_whole) draw_fence(figure, one, view.of(*on));
    draw_blade(figure, one, view.of(*on));
  }
  return figure;
}

}  // namespace quoin::guide
