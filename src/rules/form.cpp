#include "rules/form.h"

#include <fmt/format.h>

#include <cmath>
#include <numbers>

namespace quoin::rules {
namespace {

using fold::Hinge;
using fold::Turn;

Rect cell(Size page, int column, int row) {
  return {{page.width * column, page.height * row}, page};
}

Polygon corners(Rect r) {
  return {
      {r.left(), r.top()}, {r.right(), r.top()}, {r.right(), r.bottom()}, {r.left(), r.bottom()}};
}

fold::Panel panel_at(Size page, int column, int row, Angle upright = {}) {
  fold::Panel panel;
  panel.name = fmt::format("panel {} of row {}", column + 1, row + 1);
  panel.outline = corners(cell(page, column, row));
  panel.upright = upright;
  return panel;
}

Angle flat_out() { return Angle::degrees(180); }

/// The angle of a fold between two leaves whose middles lie so far apart when it is closed.
Angle closed(Mm apart, Size page) {
  return Angle{flat_out().radians - std::asin(std::min(0.2, 2 * (apart / page.width)))};
}

Hinge upright_hinge(int parent, int child, Size page, int after_column, int row) {
  Hinge hinge;
  hinge.parent = parent;
  hinge.child = child;
  const Mm x = page.width * (after_column + 1);
  hinge.from = {x, page.height * row};
  hinge.to = {x, page.height * (row + 1)};
  return hinge;
}

FoldLine upright_fold(Size page, int after_column, int rows, FoldLine::Way way) {
  const Mm x = page.width * (after_column + 1);
  return {{x, Mm{}}, {x, page.height * rows}, way};
}

PagePlace place(PagePlace::Side side, Rect at, int panel) {
  PagePlace made;
  made.side = side;
  made.at = at;
  made.panel = panel;
  return made;
}

fold::Part part_of(fold::Net net, Mm caliper) {
  net.name = "rules";
  net.thickness = caliper;
  fold::Part part;
  part.net = std::move(net);
  return part;
}

Form begun(game::RulesForm kind, Size page, int panels, int rows) {
  Form form;
  form.kind = kind;
  form.page = form.folded = page;
  form.panels = panels;
  form.leaf = {page.width * panels, page.height * rows};
  return form;
}

}  // namespace

Mm folded_thickness(int layers, int folds, Mm caliper) {
  return caliper * layers + Mm{0.1} * folds;
}

Mm creep_of(Mm caliper) { return caliper * (std::numbers::pi / 2); }

Form flat_form(Size page, Mm caliper, Form::Sides sides) {
  Form form = begun(game::RulesForm::flat, page, 1, 1);
  form.sides = sides;
  form.pages.push_back(place(PagePlace::Side::front, cell(page, 0, 0), 0));
  if (sides == Form::Sides::both) {
    form.pages.push_back(place(PagePlace::Side::back, cell(page, 0, 0), 0));
  }
  form.thickness = folded_thickness(1, 0, caliper);
  fold::Net net;
  net.panels.push_back(panel_at(page, 0, 0));
  form.model.parts.push_back(part_of(std::move(net), caliper));
  return form;
}

Form half_form(Size page, Mm caliper) {
  Form form = booklet_form(1, page, caliper);
  form.kind = game::RulesForm::half;
  form.thickness = folded_thickness(2, 1, caliper);
  form.model.steps = {{"fold it once, page 1 outside, edges on each other"}};
  for (fold::Turn& turn : form.model.parts.front().net.hinges.front().turns) {
    turn.progress = std::max(0.0, turn.progress - 1);
  }
  return form;
}

Form accordion_form(int panels, Size page, Mm caliper, Form::Sides sides) {
  Form form = begun(game::RulesForm::accordion, page, panels, 1);
  form.sides = sides;
  form.layers = panels;
  form.thickness = folded_thickness(panels, panels - 1, caliper);
  fold::Net net;
  for (int i = 0; i < panels; ++i) {
    net.panels.push_back(panel_at(page, i, 0));
    form.pages.push_back(place(PagePlace::Side::front, cell(page, i, 0), i));
  }
  for (int i = 0; i < panels && sides == Form::Sides::both; ++i) {
    form.pages.push_back(place(PagePlace::Side::back, cell(page, i, 0), panels - 1 - i));
  }
  const Angle turn = closed(caliper, page);
  for (int i = 0; i + 1 < panels; ++i) {
    const bool away = i % 2 == 0;
    form.folds.push_back(
        upright_fold(page, i, 1, away ? FoldLine::Way::away : FoldLine::Way::towards_reader));
    Hinge hinge = upright_hinge(i, i + 1, page, i, 0);
    hinge.turns = {{0, {}}, {1, away ? turn : Angle{-turn.radians}}};
    net.hinges.push_back(std::move(hinge));
  }
  form.model.steps = {{"fold it to and fro, line after line, page 1 outside"}};
  form.model.parts.push_back(part_of(std::move(net), caliper));
  return form;
}

Form eight_pages_form(Size page, Mm caliper) {
  Form form = begun(game::RulesForm::eight_pages, page, 4, 2);
  form.sides = Form::Sides::one;
  form.layers = 8;
  form.thickness = folded_thickness(8, 4, caliper);
  // The lower row, read from the left, has pages 6 7 8 1; the upper one stands on its head and has
  // 5 4 3 2. Panels go from page 1 to the left along the foot and back along the head.
  fold::Net net;
  for (int i = 0; i < 4; ++i) net.panels.push_back(panel_at(page, 3 - i, 1));
  for (int i = 0; i < 4; ++i) net.panels.push_back(panel_at(page, i, 0, flat_out()));
  constexpr int panel_of_page[] = {0, 7, 6, 5, 4, 3, 2, 1};
  for (const int panel : panel_of_page) {
    const bool lower = panel < 4;
    const Rect at = lower ? cell(page, 3 - panel, 1) : cell(page, panel - 4, 0);
    PagePlace made = place(PagePlace::Side::front, at, panel);
    if (!lower) made.way = PagePlace::Way::upside_down;
    form.pages.push_back(made);
  }
  for (int i = 0; i < 3; ++i) {
    form.folds.push_back(
        upright_fold(page, i, 2, i == 1 ? FoldLine::Way::away : FoldLine::Way::towards_reader));
  }
  form.folds.push_back({{Mm{}, page.height}, {page.width * 4, page.height}, FoldLine::Way::away});
  form.slit = fold::Slit{0, {page.width, page.height}, {page.width * 3, page.height}};

  // Steps: fold lengthwise; push the ends together to a cross; lay its arms on each other.
  const auto right = [](double degrees) { return Angle::degrees(degrees); };
  const double apart = 4 * (caliper / page.width) * 180 / std::numbers::pi;  // between two leaves
  const auto add = [&](int parent, int child, Point from, Point to, std::vector<Turn> turns) {
    net.hinges.push_back({parent, child, from, to, std::move(turns)});
  };
  const auto upright = [&](int x, int row) {
    return std::pair{Point{page.width * x, page.height * row},
                     Point{page.width * x, page.height * (row + 1)}};
  };
  const std::vector<Turn> arm{{1, {}}, {2, right(-90)}, {3, right(-180 + apart)}};
  const std::vector<Turn> leaf{{1, {}}, {2, right(180)}};
  const std::vector<Turn> cover{{1, {}}, {2, right(-90)}, {3, right(180 - 3 * apart)}};
  const auto [a, b] = upright(3, 1);
  add(0, 1, a, b, cover);
  const auto [c, d] = upright(2, 1);
  add(1, 2, c, d, leaf);
  const auto [e, f] = upright(1, 1);
  add(2, 3, e, f, arm);
  // Both rows lie in one plane once they are folded: the last panel then comes to lie behind the
  // first all the way.
  add(3, 4, {Mm{}, page.height}, {page.width, page.height}, {{0, {}}, {1, right(180)}});
  const auto [g, h] = upright(1, 0);
  add(4, 5, g, h, arm);
  const auto [i, j] = upright(2, 0);
  add(5, 6, i, j, leaf);
  const auto [k, l] = upright(3, 0);
  add(6, 7, k, l, arm);
  form.model.steps = {{"fold it lengthwise, the print outside"},
                      {"hold both ends and push them together: the slit opens, and the paper makes "
                       "a cross"},
                      {"lay the arms of the cross on each other, page 1 in front"}};
  form.model.parts.push_back(part_of(std::move(net), caliper));
  return form;
}

Form booklet_form(int leaves, Size page, Mm caliper) {
  Form form = begun(game::RulesForm::booklet, page, 2, 1);
  form.leaves = leaves;
  form.layers = leaves * 2;
  form.thickness = folded_thickness(leaves * 2, leaves, caliper);
  const Mm creep = creep_of(caliper);
  form.folded.width = page.width + creep * (leaves - 1);
  form.folds.push_back(upright_fold(page, 0, 1, FoldLine::Way::away));
  form.pages.resize(static_cast<std::size_t>(leaves) * 4);
  for (int leaf = 0; leaf < leaves; ++leaf) {
    const Rect left = cell(page, 0, 0), right = cell(page, 1, 0);
    const auto set = [&](int page_number, PagePlace::Side side, Rect at, int panel) {
      PagePlace& made = form.pages[static_cast<std::size_t>(page_number)];
      made = place(side, at, panel);
      made.leaf = leaf;
      made.creep = creep * -leaf;  // inner leaves stick out: their print goes towards the fold
    };
    set(2 * leaf, PagePlace::Side::front, right, 0);
    set(2 * leaf + 1, PagePlace::Side::back, left, 0);
    set(4 * leaves - 2 - 2 * leaf, PagePlace::Side::back, right, 1);
    set(4 * leaves - 1 - 2 * leaf, PagePlace::Side::front, left, 1);
    fold::Net net;
    net.panels.push_back(panel_at(page, 1, 0));
    net.panels.push_back(panel_at(page, 0, 0));
    Hinge hinge = upright_hinge(0, 1, page, 0, 0);
    hinge.turns = {{1, {}}, {2, closed(caliper * (2 * leaves - 1 - 2 * leaf), page)}};
    net.hinges.push_back(std::move(hinge));
    fold::Part part = part_of(std::move(net), caliper);
    part.home.move = {0, 0, caliper.value * leaf};
    if (leaf > 0) {
      part.away = {0, 0, page.width.value * 0.25 * leaf};
      part.arrives_by = 1;
    }
    form.model.parts.push_back(std::move(part));
  }
  form.model.steps = {{"lay the sheets on each other, the middle pages on top"},
                      {"fold them together, page 1 outside"}};
  return form;
}

std::string form_words(const Form& form) {
  switch (form.kind) {
    case game::RulesForm::half:
      return "a sheet folded once";
    case game::RulesForm::accordion:
      return fmt::format("an accordion of {} panels", form.panels);
    case game::RulesForm::eight_pages:
      return "one sheet with a slit, folded to eight pages";
    case game::RulesForm::booklet:
      return fmt::format("a booklet of {} {}", form.leaves, form.leaves == 1 ? "leaf" : "leaves");
    default:
      return form.sides == Form::Sides::one ? "one side of a sheet that is not folded"
                                            : "a sheet that is not folded";
  }
}

}  // namespace quoin::rules
