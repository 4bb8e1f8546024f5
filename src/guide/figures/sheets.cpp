#include <algorithm>

#include "guide/figures/figures.h"
#include "sheets/slug.h"

namespace quoin::guide {
namespace {

using sheets::Side;

/// The size of a sheet in a room, and how many times smaller.
double shrink(Size paper, Size room) {
  return std::min(room.width / paper.width, room.height / paper.height);
}

Item paper_edge(Rect sheet) {
  return line(Path::rectangle(sheet), Colour{0.45, 0.48, 0.52, 1}, Mm{0.2});
}

void add(Figure& figure, const Figure& other, Vec at) {
  Slab slab;
  put(slab, other, at, 1);
  for (Item& item : slab.items) figure.scene.items.push_back(std::move(item));
  for (const Placement& placement : slab.placed) figure.placed.push_back(placement);
}

/// Half round an axis: from one side of it to the other.
std::vector<Item> turning_arrow(Point middle, Mm reach, bool axis_is_upright) {
  const Mm high = reach * 0.55;
  Path way;
  if (axis_is_upright) {
    const Point tip{middle.x + reach, middle.y};
    way.move_to({middle.x - reach, middle.y})
        .curve_to({middle.x - reach * 0.7, middle.y - high * 1.3},
                  {middle.x + reach * 0.7, middle.y - high * 1.3}, {tip.x - Mm{1}, tip.y - Mm{2}});
    return arrow(std::move(way), tip, {Mm{0.45}, Mm{0.9}}, accent);
  }
  const Point tip{middle.x, middle.y + reach};
  way.move_to({middle.x, middle.y - reach})
      .curve_to({middle.x + high * 1.3, middle.y - reach * 0.7},
                {middle.x + high * 1.3, middle.y + reach * 0.7}, {tip.x + Mm{2}, tip.y - Mm{1}});
  return arrow(std::move(way), tip, {Mm{-0.9}, Mm{0.45}}, accent);
}

/// A letter in a disc.
void put_letter(Figure& figure, char letter, Point middle) {
  constexpr Mm radius{2.6};
  const Rect disc{middle - Vec{radius, radius}, {radius * 2, radius * 2}};
  figure.scene.items.push_back(shape(Path::ellipse(disc), white));
  figure.scene.items.push_back(line(Path::ellipse(disc), accent, Mm{0.3}));
  figure.scene.items.push_back(label(std::string(1, letter), middle, radius * 2, accent));
}

/// Letters on the cards of the first sheet and on what lies behind them.
void put_letters(Figure& figure, const Making& making, double scale, Vec front, Vec back) {
  constexpr int alphabet = 26;
  const sheets::Plan& plan = making.plan;
  const Affine behind = sheets::behind(plan.grid.paper, plan.wishes.flip);
  const auto at = [&](Point place, Vec corner) {
    return Point{place.x * scale + corner.x, place.y * scale + corner.y};
  };
  int count = 0;
  for (const sheets::Placed& placed : plan.sheets.front().front.placed) {
    if (count == alphabet) return;
    const char letter = static_cast<char>('A' + count++);
    const Point middle = placed.window.centre();
    put_letter(figure, letter, at(middle, front));
    put_letter(figure, letter, at(behind(middle), back));
  }
}

}  // namespace

Figure sheet_side(const Making& making, std::size_t sheet, Side side, Size room) {
  const sheets::Plan& plan = making.plan;
  const double scale = shrink(plan.grid.paper, room);
  const Affine map = Affine::scale(scale, scale);
  Figure figure;
  figure.size = {plan.grid.paper.width * scale, plan.grid.paper.height * scale};
  const sheets::Form& form =
      side == Side::front ? plan.sheets[sheet].front : plan.sheets[sheet].back;
  const int fronts = static_cast<int>(making.fronts.size());
  for (const sheets::Placed& placed : form.placed) {
    figure.placed.push_back({placed.is_back ? fronts + placed.drawing : placed.drawing,
                             then(placed.map, map), bounds(map, placed.window)});
  }
  const sheets::Slug slug{making.game.title, side == Side::front ? "front" : "back", {}, {}};
  Item marks;
  marks.map = map;
  marks.what = GroupItem{sheets::marks(plan, side, slug, house_family).items};
  figure.scene.items.push_back(std::move(marks));
  figure.scene.items.push_back(paper_edge({{}, figure.size}));
  return figure;
}

Figure turned_sheet(const Making& making) {
  // The back lies behind the front under a mirror: where x changes its sign the axis is upright.
  const Affine behind = sheets::behind(making.plan.grid.paper, making.plan.wishes.flip);
  const bool upright = behind.a < 0;
  const Size room = upright ? Size{Mm{62}, Mm{76}} : Size{Mm{84}, Mm{46}};
  const Mm apart{upright ? 26.0 : 18.0}, words{6};
  const Figure front = sheet_side(making, 0, Side::front, room);
  const Figure back = sheet_side(making, 0, Side::back, room);
  const Size one = front.size;
  Figure figure;
  const Mm top = upright ? words : Mm{};
  const Vec second = upright ? Vec{one.width + apart, top} : Vec{Mm{}, one.height + apart};
  add(figure, front, {Mm{}, top});
  add(figure, back, second);
  figure.size = upright ? Size{one.width * 2 + apart, one.height + top}
                        : Size{one.width + Mm{24}, one.height * 2 + apart};
  const Point middle = upright ? Point{one.width + apart / 2, top + one.height / 2}
                               : Point{one.width / 2, one.height + apart / 2};
  Path axis;
  if (upright) {
    axis.move_to({middle.x, top}).line_to({middle.x, top + one.height});
    figure.scene.items.push_back(label("front", {one.width / 2, Mm{2.5}}, one.width));
    figure.scene.items.push_back(label("back", {second.x + one.width / 2, Mm{2.5}}, one.width));
  } else {
    axis.move_to({Mm{}, middle.y}).line_to({one.width, middle.y});
    const Mm beside = one.width + Mm{12};
    figure.scene.items.push_back(label("front", {beside, one.height / 2}, Mm{22}));
    figure.scene.items.push_back(label("back", {beside, second.y + one.height / 2}, Mm{22}));
  }
  figure.scene.items.push_back(line(std::move(axis), accent, Mm{0.35}, {Mm{2}, Mm{1.4}}));
  put_letters(figure, making, shrink(making.plan.grid.paper, room), {Mm{}, top}, second);
  for (Item& item : turning_arrow(middle, apart * 0.35, upright)) {
    figure.scene.items.push_back(std::move(item));
  }
  return figure;
}

Figure true_bar() {
  Figure figure;
  figure.scale = Figure::Scale::true_size;
  figure.size = {Mm{100.4}, Mm{4}};
  const sheets::SlugRow row{Affine::move({Mm{0.1}, Mm{0.7}}), Mm{100.3}};
  figure.scene.items = sheets::measuring_bar(row, house_family);
  for (Item& item : figure.scene.items) item.layer = Layer::art;
  return figure;
}

Figure targets_apart(Mm apart) {
  constexpr double enlarged = 5;
  constexpr Mm room{36}, high{26};
  Figure figure;
  figure.size = {room, high};
  const auto target = [&](Point middle, Colour colour) {
    const Mm radius = Mm{1.2} * enlarged, arm = Mm{2} * enlarged;
    Path path = Path::ellipse({middle - Vec{radius, radius}, {radius * 2, radius * 2}});
    path.move_to({middle.x - arm, middle.y}).line_to({middle.x + arm, middle.y});
    path.move_to({middle.x, middle.y - arm}).line_to({middle.x, middle.y + arm});
    figure.scene.items.push_back(line(std::move(path), colour, Mm{0.5}));
  };
  const Vec off{apart * enlarged * 0.8, apart * enlarged * 0.6};
  const Point middle{room / 2, high / 2};
  target(middle + off * 0.5, Colour{0.45, 0.68, 0.73, 1});
  target(middle - off * 0.5, type_ink);
  return figure;
}

}  // namespace quoin::guide
