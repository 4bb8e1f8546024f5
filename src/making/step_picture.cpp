#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "cut/simulate.h"
#include "making/cut_steps.h"
#include "making/drawing.h"

namespace quoin::making {
namespace {

using cut::Edge;
using cut::Found;
using cut::Run;

constexpr Mm type{2.9};

/// From the printed sheet to the picture: turned so that one edge is at the top, drawn smaller, and
/// moved.
struct View {
  Affine map;
  double scale = 1;
};

/// Puts `board`, turned by quarters clockwise, in the middle of `room`.
View view_of(Rect board, int quarters, Rect room) {
  const Affine turn = Affine::turn(Angle::degrees(90.0 * quarters));
  const Rect turned = bounds(turn, board);
  const double scale =
      std::min(room.size.width / turned.size.width, room.size.height / turned.size.height);
  const Affine scaled = then(turn, Affine::scale(scale, scale));
  const Rect small = bounds(scaled, board);
  return {then(scaled, Affine::move(room.centre() - small.centre())), scale};
}

/// Quarters clockwise that bring the edge to the top.
int quarters_to_top(Edge edge) {
  switch (edge) {
    case Edge::left:
      return 1;
    case Edge::bottom:
      return 2;
    case Edge::right:
      return 3;
    case Edge::top:
      break;
  }
  return 0;
}

/// The cards of the grid that lie whole in the board.
std::vector<Rect> cards_in(const cut::Grid& grid, Rect board) {
  std::vector<Rect> cards;
  for (int row = 0; row < grid.rows; ++row) {
    for (int column = 0; column < grid.columns; ++column) {
      const Rect card = cut::cell(grid, column, row);
      if (cut::is_taken(grid, column, row) && lies_in(card, board)) cards.push_back(card);
    }
  }
  return cards;
}

/// The board as paper with its waste hatched and its cards on it.
void draw_board(Scene& scene, const StepInk& ink, const cut::Grid& grid, Rect board,
                const Affine& map) {
  const Rect place = bounds(map, board);
  scene.items.push_back(filled(Path::rectangle(place), ink.paper));
  Item waste = stroked(hatch(place, Mm{1.6}), ink.quiet, Mm{0.12});
  waste.clip = Path::rectangle(place);
  scene.items.push_back(std::move(waste));
  for (const Rect& card : cards_in(grid, board)) {
    const Rect on_page = bounds(map, card);
    scene.items.push_back(filled(Path::rectangle(on_page), ink.card));
    scene.items.push_back(stroked(Path::rectangle(on_page), ink.line, Mm{0.12}));
  }
}

/// The edges: thin and grey where the mill cut, thick and dark where a cut of the plan did.
void draw_edges(Scene& scene, const StepInk& ink, const cut::Board& board, const Affine& map) {
  const Rect r = board.at;
  const Point corners[] = {{r.left(), r.bottom()},
                           {r.left(), r.top()},
                           {r.right(), r.top()},
                           {r.right(), r.bottom()},
                           {r.left(), r.bottom()}};
  for (std::size_t edge = 0; edge < 4; ++edge) {
    const bool fresh = board.fresh[edge];
    scene.items.push_back(stroked(line(map(corners[edge]), map(corners[edge + 1])),
                                  fresh ? ink.line : ink.quiet, fresh ? Mm{0.5} : Mm{0.2}));
  }
}

/// The two ends of a cut through its board.
std::pair<Point, Point> ends(const cut::Cut& cut) {
  const Rect r = cut.through;
  if (cut.run == Run::down) return {{cut.at, r.top()}, {cut.at, r.bottom()}};
  return {{r.left(), cut.at}, {r.right(), cut.at}};
}

/// The blade: a red line past both ends of the cut.
void draw_cut(Scene& scene, const StepInk& ink, const cut::Cut& cut, const Affine& map) {
  const auto [from, to] = ends(cut);
  const Point a = map(from), b = map(to);
  const Vec way = (b - a) * (1 / length(b - a).value);
  constexpr double past = 3.5;
  scene.items.push_back(stroked(line(a - way * past, b + way * past), ink.blade, Mm{0.6}));
}

void draw_following(Scene& scene, const StepInk& ink, const cut::Step& step, Rect board,
                    const Affine& map) {
  for (std::size_t i = 1; i < step.cuts.size(); ++i) {
    if (!lies_in(step.cuts[i].through, board)) continue;
    const auto [from, to] = ends(step.cuts[i]);
    Item later = stroked(line(map(from), map(to)), ink.blade, Mm{0.35});
    std::get<ShapeItem>(later.what).stroke.dash = {Mm{1.4}, Mm{0.9}};
    scene.items.push_back(std::move(later));
  }
}

/// Crop marks at both ends of a cut that is found by them, where there is waste to print them on.
void draw_marks(Scene& scene, const StepInk& ink, const cut::Grid& grid, const cut::Cut& cut,
                const View& view) {
  const auto [from, to] = ends(cut);
  const Rect block = cut::block_of(grid);
  const Mm before = cut.run == Run::down ? block.top() - from.y : block.left() - from.x;
  const Mm behind = cut.run == Run::down ? to.y - block.bottom() : to.x - block.right();
  const Vec way = cut.run == Run::down ? Vec{Mm{0}, Mm{1}} : Vec{Mm{1}, Mm{0}};
  const auto mark = [&](Point end, double sign, Mm room) {
    if (room < Mm{1}) return;
    const Mm in = std::min(room / 2, Mm{5});  // the marks stand near the edge of the paper
    const Point middle = view.map(end + way * (sign * in.value));
    scene.items.push_back(
        stroked(Path::ellipse(grown(Rect{middle, {}}, Mm{1.6})), ink.line, Mm{0.3}));
  };
  mark(from, 1, before);
  mark(to, -1, behind);
}

/// From the fence to the blade, with its length in words.
void draw_distance(Scene& scene, const StepInk& ink, const cut::Cut& cut, Rect place,
                   const Affine& map) {
  const Mm y = map(ends(cut).first).y;
  const Mm x = place.left() - Mm{4.5};
  scene.items.push_back(stroked(arrow({x, place.top()}, {x, y}, Mm{1.3}), ink.line, Mm{0.25}));
  scene.items.push_back(stroked(arrow({x, y}, {x, place.top()}, Mm{1.3}), ink.line, Mm{0.25}));
  scene.items.push_back(words(fmt::format("{:.1f} mm", cut.setting.value),
                              {x - Mm{2.2}, (place.top() + y) / 2}, {type, -90, ink.line}));
}

void draw_fence(Scene& scene, const StepInk& ink, const Cutting& cutting, Rect place) {
  const Rect bar = rect_between({place.left() - Mm{7}, place.top() - Mm{3.4}},
                                {place.right() + Mm{7}, place.top() - Mm{0.3}});
  if (cutting.has_fence) {
    scene.items.push_back(filled(Path::rectangle(bar), ink.fence));
    scene.items.push_back(words("fence", bar.centre(), {Mm{2.2}, 0, ink.on_fence}));
  } else {
    scene.items.push_back(words("fresh edge", bar.centre(), {Mm{2.2}, 0, ink.line}));
  }
}

/// A round arrow with the turn in words.
void draw_turn(Scene& scene, const StepInk& ink, int quarters, Rect room) {
  if (quarters == 0) return;
  const Point middle{room.centre().x, room.top() + Mm{8}};
  const double degrees = quarters == 3 ? -90 : 90.0 * quarters;
  scene.items.push_back(stroked(turn_arrow(middle, Mm{5.2}, degrees), ink.line, Mm{0.5}));
  const char* how = quarters == 2 ? "half round" : "a quarter";
  scene.items.push_back(words(how, {middle.x, middle.y + Mm{8}}, {Mm{2.5}, 0, ink.line}));
}

/// The whole sheet as it was printed, in its present state.
void draw_sheet(Scene& scene, const StepInk& ink, const SheetKind& kind, std::size_t step,
                Rect room) {
  const cut::Plan& plan = kind.cuts;
  const View view = view_of({{}, plan.grid.sheet}, 0, room);
  const cut::Step& now = plan.steps[step];
  for (const cut::Board& board : cut::boards_before(plan, step)) {
    const bool is_waste = cards_in(plan.grid, board.at).empty();
    if (is_waste) continue;
    draw_board(scene, ink, plan.grid, board.at, view.map);
    scene.items.push_back(stroked(Path::rectangle(bounds(view.map, board.at)), ink.line, Mm{0.2}));
  }
  for (const cut::Cut& cut : now.cuts) {
    const auto [from, to] = ends(cut);
    scene.items.push_back(stroked(line(view.map(from), view.map(to)), ink.blade, Mm{0.4}));
  }
}

const cut::Board& board_at(const std::vector<cut::Board>& boards, Rect place) {
  const auto found = std::find_if(boards.begin(), boards.end(), [&](const cut::Board& board) {
    return nearly_equal(board.at.left(), place.left()) &&
           nearly_equal(board.at.top(), place.top()) && nearly_equal(board.at.size, place.size);
  });
  return found == boards.end() ? boards.front() : *found;
}

}  // namespace

Scene step_picture(const Cutting& cutting, const SheetKind& kind, std::size_t step, Size room,
                   const StepInk& ink) {
  Scene scene;
  const cut::Plan& plan = kind.cuts;
  const cut::Step& now = plan.steps.at(step);
  const cut::Cut& first = now.cuts.front();
  const Mm beside = room.width * 0.3;
  const Rect main{{Mm{11}, Mm{5}}, {room.width - beside - Mm{19}, room.height - Mm{11}}};
  const Rect side{{room.width - beside, Mm{20}}, {beside - Mm{1}, room.height - Mm{26}}};
  const std::vector<cut::Board> boards = cut::boards_before(plan, step);
  const cut::Board& board = board_at(boards, first.through);
  const View view = view_of(board.at, quarters_to_top(cut::far_edge(plan.grid, first)), main);
  const Rect place = bounds(view.map, board.at);
  draw_board(scene, ink, plan.grid, board.at, view.map);
  draw_edges(scene, ink, board, view.map);
  draw_following(scene, ink, now, board.at, view.map);
  if (first.found == Found::by_fence) {
    draw_fence(scene, ink, cutting, place);
    draw_distance(scene, ink, first, place, view.map);
  } else {
    draw_marks(scene, ink, plan.grid, first, view);
  }
  draw_cut(scene, ink, first, view.map);
  draw_turn(scene, ink, now.quarter_turns, {{side.left(), Mm{0}}, {side.size.width, Mm{19}}});
  draw_sheet(scene, ink, kind, step, side);
  scene.items.push_back(words("you stand here", {place.centre().x, place.bottom() + Mm{3.4}},
                              {Mm{2.3}, 0, ink.quiet}));
  scene.items.push_back(words("the sheet as printed", {side.centre().x, room.height - Mm{2.4}},
                              {Mm{2.3}, 0, ink.quiet}));
  return scene;
}

Scene corner_picture(const Corners& corners, Size room, const StepInk& ink) {
  // So that the arc takes a third of the height, and the corner stands in the left of the middle.
  const Mm arc = room.height / 3;
  const Point at{room.width / 2 - arc * 1.2, room.height / 2 - arc * 1.1};
  const Rect card{at, {arc * 2.6, arc * 2.2}};
  Scene scene;
  scene.items.push_back(filled(Path::rectangle({at, {arc, arc}}), ink.paper));
  Item falls = stroked(hatch({at, {arc, arc}}, Mm{1.6}), ink.quiet, Mm{0.15});
  falls.clip = Path::rectangle({at, {arc, arc}});
  scene.items.push_back(std::move(falls));
  Path kept = Path::rounded_rectangle({at, {card.size.width * 2, card.size.height * 2}}, arc);
  Item whole = filled(kept, ink.card);
  whole.clip = Path::rectangle(card);
  scene.items.push_back(std::move(whole));
  Item blade = stroked(kept, ink.blade, Mm{0.7});
  blade.clip = Path::rectangle(rect_between(at - Vec{Mm{1}, Mm{1}}, at + Vec{arc, arc}));
  scene.items.push_back(std::move(blade));
  const Point centre = at + Vec{arc, arc};
  const Mm way = arc * std::sqrt(0.5);
  scene.items.push_back(stroked(arrow(centre, centre - Vec{way, way}, Mm{1.6}), ink.line, Mm{0.3}));
  scene.items.push_back(words(fmt::format("radius {:.1f} mm", corners.radius.value),
                              centre + Vec{arc * 0.5, Mm{3}}, {type, 0, ink.line}));
  return scene;
}

}  // namespace quoin::making
