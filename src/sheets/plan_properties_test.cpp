#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <set>

#include "sheets/printable.h"
#include "sheets/sheets.h"

// What holds of every plan, whatever the sizes, papers, margins, counts and wishes.

namespace quoin::sheets {
namespace {

using game::BackPrinting;
using game::SheetWishes;

/// A job to lay: random, but such as a maker could ask for.
struct Job {
  std::vector<Copy> copies;
  PieceFormat piece;
  SheetWishes wishes;
};

/// Tenths of a millimetre, `from` to `to` included.
Mm tenths(int from, int to) { return Mm{*rc::gen::inRange(from, to + 1) / 10.0}; }

template <typename Enum>
Enum any_of_first(int count) {
  return static_cast<Enum>(*rc::gen::inRange(0, count));
}

SheetWishes any_wishes() {
  const Size papers[] = {{Mm{210}, Mm{297}}, {Mm{215.9}, Mm{279.4}}, {Mm{148}, Mm{210}},
                         {Mm{297}, Mm{420}}, {Mm{297}, Mm{210}},     {Mm{200}, Mm{200}}};
  SheetWishes w;
  w.paper = papers[*rc::gen::inRange(0, 6)];
  w.flip = any_of_first<game::FlipEdge>(2);
  w.backs = any_of_first<BackPrinting>(4);
  w.pile = any_of_first<game::Pile>(2);
  w.spacing = any_of_first<game::Spacing>(4);
  w.gutter = tenths(0, 120);
  w.order = any_of_first<game::SheetOrder>(3);
  w.turn = any_of_first<game::Turn>(3);
  w.orientation = any_of_first<game::Orientation>(3);
  w.dead_margin = {tenths(0, 150), tenths(0, 150), tenths(0, 150), tenths(0, 150)};
  return w;
}

Job any_job() {
  Job job;
  job.wishes = any_wishes();
  job.piece.name = "card";
  job.piece.trim = {tenths(200, 1300), tenths(200, 1900)};
  job.piece.bleed = tenths(0, 50);
  job.piece.back_bleed = job.piece.bleed + tenths(0, 20);
  job.piece.edges_alike = *rc::gen::arbitrary<bool>();
  const int count = *rc::gen::inRange(1, 70), backs = *rc::gen::inRange(1, 4);
  for (int i = 0; i < count; ++i) {
    const int back = *rc::gen::inRange(-1, backs);
    job.copies.push_back({i, backs == 1 ? 0 : back, std::string(1, char('a' + i % 3)),
                          std::string(1, char('A' + i % 5 / 3))});
  }
  return job;
}

/// The plan of a random job; jobs whose piece is too large are another test's.
Plan any_plan() {
  const Job job = any_job();
  Result<Plan> plan = lay(job.copies, job.piece, job.wishes);
  RC_PRE(plan.ok());
  return *std::move(plan);
}

bool cross(Rect a, Rect b) {
  const std::optional<Rect> common = overlap(a, b);
  return common && common->size.width > epsilon && common->size.height > epsilon;
}

std::vector<const Form*> forms(const Plan& plan) {
  std::vector<const Form*> all;
  for (const Sheet& sheet : plan.sheets) {
    all.push_back(&sheet.front);
    all.push_back(&sheet.back);
  }
  return all;
}

RC_GTEST_PROP(EveryPlan, keeps_all_trims_where_the_printer_prints, ()) {
  const Plan plan = any_plan();
  const Rect area = printable(plan.wishes, plan.grid.paper);
  for (const Form* form : forms(plan)) {
    for (const Placed& p : form->placed) RC_ASSERT(lies_in(p.trim, area));
  }
}

RC_GTEST_PROP(EveryPlan, keeps_windows_round_their_trims_and_off_the_others, ()) {
  const Plan plan = any_plan();
  for (const Form* form : forms(plan)) {
    for (std::size_t i = 0; i < form->placed.size(); ++i) {
      RC_ASSERT(lies_in(form->placed[i].trim, form->placed[i].window));
      RC_ASSERT(lies_in(form->placed[i].window, page_of(plan.grid.paper)));
      for (std::size_t j = 0; j < form->placed.size(); ++j) {
        if (i != j) RC_ASSERT(!cross(form->placed[i].window, form->placed[j].trim));
      }
    }
  }
}

RC_GTEST_PROP(EveryPlan, lays_every_copy_once, ()) {
  const Plan plan = any_plan();
  std::multiset<int> laid, drawn;
  for (const Sheet& sheet : plan.sheets) {
    RC_ASSERT(sheet.copies.size() == plan.grid.trims.size());
    for (const int copy : sheet.copies) {
      if (copy >= 0) laid.insert(copy);
    }
    for (const Placed& p : sheet.front.placed) {
      if (!p.is_back) drawn.insert(p.drawing);  // a front of its own for every copy, see any_job
    }
  }
  RC_ASSERT(laid == drawn);
  RC_ASSERT(std::set<int>(laid.begin(), laid.end()).size() == laid.size());
  RC_ASSERT(*laid.begin() == 0);
  RC_ASSERT(*laid.rbegin() == static_cast<int>(laid.size()) - 1);
}

RC_GTEST_PROP(EveryPlan, puts_each_back_behind_its_front, ()) {
  const Job job = any_job();
  const Result<Plan> plan = lay(job.copies, job.piece, job.wishes);
  RC_PRE(plan.ok() && has_back_forms(job.wishes));
  const Affine over = behind(plan->grid.paper, job.wishes.flip);
  for (const Sheet& sheet : plan->sheets) {
    for (std::size_t cell = 0; cell < sheet.copies.size(); ++cell) {
      if (sheet.copies[cell] < 0) continue;
      const Copy& copy = job.copies[sheet.copies[cell]];
      const Rect there = bounds(over, plan->grid.trims[cell]);
      const auto back = std::find_if(
          sheet.back.placed.begin(), sheet.back.placed.end(),
          [&](const Placed& p) { return lies_in(p.trim, there) && lies_in(there, p.trim); });
      RC_ASSERT((back != sheet.back.placed.end()) == (copy.back >= 0));
      if (copy.back < 0) continue;
      RC_ASSERT(back->drawing == copy.back);
      RC_ASSERT(back->map.determinant() == 1);
    }
  }
}

/// Seen through the paper a front's left edge is its back's right edge, and heads stay together.
RC_GTEST_PROP(EveryPlan, keeps_heads_together_on_both_sides, ()) {
  const Job job = any_job();
  const Result<Plan> plan = lay(job.copies, job.piece, job.wishes);
  RC_PRE(plan.ok() && has_back_forms(job.wishes));
  const Affine over = behind(plan->grid.paper, job.wishes.flip);
  const Mm width = job.piece.trim.width;
  const Point on_front{tenths(0, 200), tenths(0, 200)};
  const Point on_back{width - on_front.x, on_front.y};
  for (const Sheet& sheet : plan->sheets) {
    for (const Placed& back : sheet.back.placed) {
      const Point seen_through = over(back.map(on_back));
      const bool has_front_there = std::any_of(
          sheet.front.placed.begin(), sheet.front.placed.end(),
          [&](const Placed& f) { return length(f.map(on_front) - seen_through) < Mm{1e-9}; });
      const bool cell_is_empty = sheet.back.placed.size() > sheet.front.placed.size();
      RC_ASSERT(has_front_there || cell_is_empty);
    }
  }
}

/// What a path touches, line by line.
std::vector<Rect> touched(const Path& path, const Affine& map) {
  std::vector<Rect> all;
  Point at;
  for (const Path::Step& step : path.steps()) {
    if (step.verb == Path::Verb::close) continue;
    const int points = step.verb == Path::Verb::curve ? 3 : 1;
    Rect box{step.p[points - 1], {}};
    if (step.verb != Path::Verb::move) {
      box = covering(box, {at, {}});
      for (int i = 0; i < points; ++i) box = covering(box, {step.p[i], {}});
    }
    at = step.p[points - 1];
    if (step.verb != Path::Verb::move) all.push_back(bounds(map, box));
  }
  return all;
}

/// What a mark covers: half a line's width round its lines, or the place its words may fill.
std::vector<Rect> covered(const Item& item) {
  if (std::holds_alternative<TextItem>(item.what)) return {bounds(item.map, bounds(*item.clip))};
  const auto& shape = std::get<ShapeItem>(item.what);
  std::vector<Rect> all;
  for (const Rect line : touched(shape.path, item.map)) {
    all.push_back(grown(line, shape.stroke.width / 2));
  }
  return all;
}

RC_GTEST_PROP(EveryPlan, keeps_marks_off_all_bleed_and_inside_the_printable_area, ()) {
  const Plan plan = any_plan();
  const Slug slug{"A game with a rather long name", "front 1 of 2", "card 300 g/m²", "cut"};
  const Rect area = grown(printable(plan.wishes, plan.grid.paper), Mm{0.1});
  for (const Side side : {Side::front, Side::back}) {
    for (const Item& item : marks(plan, side, slug, house_family).items) {
      for (const Rect mark : covered(item)) {
        RC_ASSERT(lies_in(mark, area));
        for (const Sheet& sheet : plan.sheets) {
          const Form& form = side == Side::front ? sheet.front : sheet.back;
          for (const Placed& p : form.placed) RC_ASSERT(!overlap(mark, p.window));
        }
      }
    }
  }
}

RC_GTEST_PROP(EveryPlan, keeps_marks_of_different_kinds_apart, ()) {
  const Plan plan = any_plan();
  const Slug slug{"A game", "front 1 of 2", "card 300 g/m²", "cut"};
  const Scene scene = marks(plan, Side::front, slug, house_family);
  for (std::size_t i = 0; i < scene.items.size(); ++i) {
    for (std::size_t j = i + 1; j < scene.items.size(); ++j) {
      for (const Rect a : covered(scene.items[i])) {
        for (const Rect b : covered(scene.items[j])) RC_ASSERT(!overlap(a, b));
      }
    }
  }
}

/// How many lengths fit side by side, counted one by one.
int side_by_side(Mm room, Mm length, Mm gutter) {
  int count = 0;
  for (Mm used = length; used <= room + epsilon; used += gutter + length) ++count;
  return count;
}

/// Most pieces on one sheet when `strip_x`, `strip_y` stay free beyond the trims on each side.
int most_on_a_sheet(const Job& job, Mm gutter, Mm strip_x, Mm strip_y) {
  int most = 0;
  for (const bool landscape : {false, true}) {
    const Size given = job.wishes.paper;
    const Size paper = (given.width > given.height) == landscape ? given : turned(given);
    const Size area = printable_on_both_sides(job.wishes, paper).size;
    for (const bool is_turned : {false, true}) {
      const Size cell = is_turned ? turned(job.piece.trim) : job.piece.trim;
      const int columns = side_by_side(area.width - strip_x * 2, cell.width, gutter);
      const int rows = side_by_side(area.height - strip_y * 2, cell.height, gutter);
      most = std::max(most, columns * rows);
    }
  }
  return most;
}

int sheets_of(int count, int capacity) { return (count + capacity - 1) / capacity; }

RC_GTEST_PROP(EveryPlan, takes_no_more_sheets_than_the_best_simple_grid, ()) {
  Job job = any_job();
  job.wishes.turn = game::Turn::automatic;
  job.wishes.orientation = game::Orientation::automatic;
  job.wishes.order = game::SheetOrder::list;
  job.wishes.backs = BackPrinting::printer;
  const bool shared = *rc::gen::arbitrary<bool>();
  job.wishes.spacing = shared ? game::Spacing::automatic : game::Spacing::gutters;
  const Mm bleed = job.piece.back_bleed;  // the larger of the two
  const Mm gutter = shared ? Mm{0} : bleed * 2;
  const Mm marks_room = bleed + Mm{1.5}, slug_room = bleed + Mm{4.5};
  const int with_all = std::max(most_on_a_sheet(job, gutter, marks_room, slug_room),
                                most_on_a_sheet(job, gutter, slug_room, marks_room));
  RC_PRE(with_all > 0);
  const Result<Plan> plan = lay(job.copies, job.piece, job.wishes);
  RC_ASSERT(plan.ok());
  const int count = static_cast<int>(job.copies.size());
  const int sheets = static_cast<int>(plan->sheets.size());
  RC_ASSERT(sheets <= sheets_of(count, with_all));
  RC_ASSERT(sheets >= sheets_of(count, most_on_a_sheet(job, gutter, Mm{0}, Mm{0})));
  // What a closer grid lacks is said.
  const Diagnostics found = check(*plan);
  const bool is_said = std::any_of(found.begin(), found.end(), [](const Diagnostic& d) {
    return d.id == Id::sheet_no_room_for_marks || d.id == Id::sheet_no_room_for_slug ||
           d.id == Id::sheet_bleed_in_dead_margin;
  });
  RC_ASSERT(is_said || sheets == sheets_of(count, with_all));
}

RC_GTEST_PROP(EveryPlan, is_the_same_when_it_is_made_again, ()) {
  const Job job = any_job();
  const Result<Plan> once = lay(job.copies, job.piece, job.wishes);
  const Result<Plan> again = lay(job.copies, job.piece, job.wishes);
  RC_ASSERT(once.ok() == again.ok());
  if (!once.ok()) {
    RC_ASSERT(once.why() == again.why());
    return;
  }
  RC_ASSERT(once->choices == again->choices);
  RC_ASSERT(check(*once) == check(*again));
  for (std::size_t i = 0; i < once->sheets.size(); ++i) {
    RC_ASSERT(once->sheets[i].front == again->sheets[i].front);
    RC_ASSERT(once->sheets[i].back == again->sheets[i].back);
  }
}

RC_GTEST_PROP(EveryPlan, fails_only_when_not_one_piece_fits, ()) {
  Job job = any_job();
  job.wishes.backs = BackPrinting::printer;
  job.wishes.turn = game::Turn::automatic;
  job.wishes.orientation = game::Orientation::automatic;
  const bool one_fits = most_on_a_sheet(job, Mm{0}, Mm{0}, Mm{0}) > 0;
  RC_ASSERT(lay(job.copies, job.piece, job.wishes).ok() == one_fits);
}

}  // namespace
}  // namespace quoin::sheets
