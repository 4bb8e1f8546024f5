#include <fmt/format.h>

#include "sheets/arrangement.h"
#include "sheets/printable.h"
#include "sheets/wording.h"

namespace quoin::sheets {
namespace {

std::string gutter_words(const Arrangement& a, Mm full_gutter) {
  if (a.capacity() == 1) return "";
  if (a.gutter <= epsilon) return ", edges touching";
  const std::string width = millimetres(a.gutter) + " between them";
  return fits(full_gutter, a.gutter) ? ", " + width + " for full bleed all round" : ", " + width;
}

std::string fold_words(Fold fold) {
  if (fold == Fold::top) return ", folded along the top edge";
  return fold == Fold::side ? ", folded along the right edge" : "";
}

std::string why(const Arrangement& a, const PieceFormat& piece, const game::SheetWishes& wishes,
                int count) {
  const std::string lines = a.capacity() == 1 ? "" : fmt::format(" as {} x {}", a.columns, a.rows);
  return fmt::format("{} to a sheet{}, {} on {}{}{}: {} for {}", a.capacity(), lines,
                     a.pose.turned ? "turned" : "upright", paper_words(wishes, a.pose.paper),
                     gutter_words(a, outer_bleed(piece, wishes) * 2), fold_words(a.pose.fold),
                     counted(a.sheets, "sheet"), counted(count, piece.name));
}

/// The largest piece that fits in this pose, upright and folded up.
Size largest_trim(const Pose& pose) {
  Size most = pose.turned ? turned(pose.usable.size) : pose.usable.size;
  if (pose.fold == Fold::top) most.height = most.height / 2;
  if (pose.fold == Fold::side) most.width = most.width / 2;
  return most;
}

/// A grid as it would have to be, against what a page offers.
struct Shortage {
  Pose pose;
  Size needed;
  [[nodiscard]] Mm missing() const {
    return std::max(needed.width - pose.usable.size.width, needed.height - pose.usable.size.height);
  }
};

/// The pose in which least is missing.
Shortage smallest_shortage(const PieceFormat& piece, const game::SheetWishes& wishes,
                           game::GridAsked grid, Mm gutter) {
  std::optional<Shortage> least;
  for (const Pose& pose : poses(piece, wishes)) {
    const Size needed{pose.cell.width * grid.columns + gutter * (grid.columns - 1),
                      pose.cell.height * grid.rows + gutter * (grid.rows - 1)};
    const Shortage here{pose, needed};
    if (!least || here.missing() < least->missing()) least = here;
  }
  return *least;
}

Mm gutter_wanted(const PieceFormat& piece, const game::SheetWishes& wishes) {
  if (wishes.spacing == game::Spacing::fixed) return wishes.gutter;
  const bool full = wishes.spacing == game::Spacing::gutters;
  return full ? outer_bleed(piece, wishes) * 2 : Mm{0};
}

std::string offered(const Shortage& shortage, const game::SheetWishes& wishes) {
  return fmt::format("{} offers {} inside its dead margin",
                     paper_words(wishes, shortage.pose.paper),
                     millimetres(shortage.pose.usable.size));
}

void say_if_both_sides_count(Diagnostic& d, const Shortage& shortage,
                             const game::SheetWishes& wishes) {
  const Size front = printable(wishes, shortage.pose.paper).size;
  if (nearly_equal(front, shortage.pose.usable.size)) return;
  d.detail(
      fmt::format("the front alone offers {}, but backs have to fall behind their fronts, so "
                  "the wider of two opposite dead margins counts on both",
                  millimetres(front)));
}

bool would_fit(const PieceFormat& piece, const game::SheetWishes& wishes) {
  return choose(piece, {1}, wishes).has_value();
}

/// The remedies that are found by trying them.
void hint_what_fits(Diagnostic& d, const PieceFormat& piece, game::SheetWishes wishes) {
  wishes.grid.reset();
  game::SheetWishes either_way = wishes;
  either_way.turn = game::Turn::automatic;
  either_way.orientation = game::Orientation::automatic;
  if (!would_fit(piece, wishes) && would_fit(piece, either_way)) {
    const bool by_turning = wishes.turn != game::Turn::automatic;
    d.hint(by_turning ? "with turn = \"auto\" and orientation = \"auto\" it fits"
                      : "with orientation = \"auto\" it fits");
  }
  if (wishes.backs == game::BackPrinting::fold) {
    wishes.backs = game::BackPrinting::printer;
    if (would_fit(piece, wishes)) d.hint("with backs = \"printer\" or \"by-hand\" it fits");
  }
}

Diagnostic too_large(const PieceFormat& piece, const game::SheetWishes& wishes) {
  const Shortage s = smallest_shortage(piece, wishes, {1, 1}, {});
  const bool folded = s.pose.fold != Fold::none;
  Diagnostic d(
      Id::sheet_piece_too_large, piece.origin,
      fmt::format("a {} of {} does not fit: {}{}", piece.name, millimetres(piece.trim),
                  folded ? fmt::format("unfolded it takes {}, and ", millimetres(s.needed)) : "",
                  offered(s, wishes)));
  say_if_both_sides_count(d, s, wishes);
  hint_what_fits(d, piece, wishes);
  d.hint(fmt::format("choose a larger paper, or a {} of at most {}", piece.name,
                     millimetres(largest_trim(s.pose))));
  return d;
}

Diagnostic grid_too_large(const PieceFormat& piece, const game::SheetWishes& wishes,
                          const Choice& instead) {
  const Shortage s = smallest_shortage(piece, wishes, *wishes.grid, gutter_wanted(piece, wishes));
  Diagnostic d(
      Id::sheet_grid_does_not_fit, wishes.origin,
      fmt::format("a grid of {} x {} {} takes {}, and {}", wishes.grid->columns, wishes.grid->rows,
                  many(piece.name), millimetres(s.needed), offered(s, wishes)));
  say_if_both_sides_count(d, s, wishes);
  d.hint(fmt::format("grid = \"{}x{}\" fits; grid = \"auto\" finds the best",
                     instead.chosen.columns, instead.chosen.rows));
  return d;
}

int sum(const std::vector<int>& runs) {
  int total = 0;
  for (const int run : runs) total += run;
  return total;
}

}  // namespace

std::string paper_words(const game::SheetWishes& wishes, Size paper) {
  const bool landscape = paper.width > paper.height;
  return (landscape ? "landscape " : "portrait ") + wishes.paper_name;
}

Diagnostic why_none_fits(const PieceFormat& piece, const game::SheetWishes& wishes) {
  if (!wishes.grid) return too_large(piece, wishes);
  game::SheetWishes any_grid = wishes;
  any_grid.grid.reset();
  // As many as can be: what the maker asked for is likely to be near it.
  const std::optional<Choice> instead = choose(piece, {1'000'000}, any_grid);
  return instead ? grid_too_large(piece, wishes, *instead) : too_large(piece, any_grid);
}

Result<ChosenGrid> best_grid_for(const PieceFormat& piece, const std::vector<int>& runs,
                                 const game::SheetWishes& wishes) {
  const std::optional<Choice> choice = choose(piece, runs, wishes);
  if (!choice) return why_none_fits(piece, wishes);
  Grid grid = placed(choice->chosen);
  grid.why = why(choice->chosen, piece, wishes, sum(runs));
  return ChosenGrid{std::move(grid), *choice};
}

Result<Grid> best_grid(const PieceFormat& piece, int count, const game::SheetWishes& wishes) {
  Result<ChosenGrid> chosen = best_grid_for(piece, {std::max(count, 1)}, wishes);
  if (!chosen) return std::move(chosen).why();
  return std::move(chosen->grid);
}

}  // namespace quoin::sheets
