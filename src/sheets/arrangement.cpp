#include "sheets/arrangement.h"

#include <array>
#include <limits>
#include <stdexcept>
#include <tuple>

#include "sheets/printable.h"

namespace quoin::sheets {
namespace {

using game::Orientation;
using game::Spacing;
using game::Turn;

/// More columns or rows than this are not tried: 200 pieces of 4 mm lie side by side on A0.
constexpr int most_lines = 200;

/// Free width that has to stay between the outermost trims and the end of what is usable.
struct Strips {
  Mm x, y;
};

std::vector<Strips> strips_for(Lack lack, Mm bleed) {
  const Mm short_bleed = std::min(bleed, least_bleed);
  const Mm slug = bleed + slug_strip;
  switch (lack) {
    case Lack::nothing:
      return {{bleed + marks_strip, slug}, {slug, bleed + marks_strip}};
    case Lack::marks:
      return {{bleed, slug}, {slug, bleed}};
    case Lack::bleed:
      return {{short_bleed, slug}, {slug, short_bleed}};
    case Lack::slug:
      return {{short_bleed, short_bleed}};
    case Lack::bleed_and_marks:
      return {{Mm{0}, Mm{0}}};
  }
  throw std::logic_error("a lack outside its enumeration");
}

std::vector<Size> papers(const game::SheetWishes& wishes) {
  const Size portrait{std::min(wishes.paper.width, wishes.paper.height),
                      std::max(wishes.paper.width, wishes.paper.height)};
  std::vector<Size> all;
  if (wishes.orientation != Orientation::landscape) all.push_back(portrait);
  const bool square = nearly_equal(portrait.width, portrait.height);
  if (wishes.orientation != Orientation::portrait && (all.empty() || !square)) {
    all.push_back(turned(portrait));
  }
  return all;
}

Size unfolded(Size trim, Fold fold) {
  if (fold == Fold::top) return {trim.width, trim.height * 2};
  if (fold == Fold::side) return {trim.width * 2, trim.height};
  return trim;
}

std::vector<Fold> folds(const game::SheetWishes& wishes) {
  if (wishes.backs != game::BackPrinting::fold) return {Fold::none};
  return {Fold::top, Fold::side};
}

/// The widest gutter with which `count` lengths fit between the strips; nothing when they do not
/// fit at all.
std::optional<Mm> widest_gutter(Mm usable, Mm strip, Mm cell, int count) {
  if (count < 1) return std::nullopt;
  const Mm slack = usable - strip * 2 - cell * count;
  if (!(slack >= -epsilon)) return std::nullopt;
  if (count == 1) return Mm{std::numeric_limits<double>::infinity()};
  return std::max(Mm{0}, slack / (count - 1));
}

/// What the maker's wish for the spacing leads to, as far as there is room for it.
class Gutters {
 public:
  Gutters(const PieceFormat& piece, const game::SheetWishes& wishes)
      : spacing_(wishes.spacing), fixed_(wishes.gutter), full_(outer_bleed(piece, wishes) * 2) {}

  /// Gutters to try when the widest that fits is `widest`.
  [[nodiscard]] std::vector<Mm> within(Mm widest, Lack lack) const {
    std::vector<Mm> all;
    const auto add_if_it_fits = [&](Mm gutter) {
      if (fits(gutter, widest)) all.push_back(gutter);
    };
    if (spacing_ == Spacing::fixed) add_if_it_fits(fixed_);
    if (spacing_ == Spacing::gutters) add_if_it_fits(full_);
    if (spacing_ == Spacing::shared) all.push_back(Mm{0});
    if (spacing_ != Spacing::automatic) return all;
    all.push_back(Mm{0});
    add_if_it_fits(full_);
    const Mm between{std::floor(std::min(widest, full_).value * 10) / 10};
    const bool takes_from_the_outside = lack > Lack::marks;
    if (all.size() == 1 && between >= least_gutter && !takes_from_the_outside) {
      all.push_back(between);
    }
    return all;
  }

  /// The gutter that a message speaks of.
  [[nodiscard]] Mm least() const {
    if (spacing_ == Spacing::fixed) return fixed_;
    return spacing_ == Spacing::gutters ? full_ : Mm{0};
  }

 private:
  Spacing spacing_;
  Mm fixed_, full_;
};

int sheets_needed(const std::vector<int>& runs, int capacity) {
  int sheets = 0;
  for (const int run : runs) sheets += run / capacity + (run % capacity > 0 ? 1 : 0);
  return sheets;
}

/// Finds the best arrangement of one lack.
class Search {
 public:
  Search(const PieceFormat& piece, const std::vector<int>& runs, const game::SheetWishes& wishes)
      : piece_(piece), runs_(runs), wishes_(wishes), gutters_(piece, wishes) {}

  std::optional<Arrangement> best(Lack lack) {
    best_.reset();
    for (const Pose& pose : poses(piece_, wishes_)) {
      for (const Strips strips : strips_for(lack, outer_bleed(piece_, wishes_))) {
        try_all({pose, 0, 0, {}, lack, 0}, strips);
      }
    }
    return best_;
  }

 private:
  void try_all(Arrangement draft, Strips strips) {
    const Pose& pose = draft.pose;
    if (wishes_.grid) {
      draft.columns = wishes_.grid->columns;
      draft.rows = wishes_.grid->rows;
      return try_gutters(draft, strips);
    }
    const int columns = most(pose.usable.size.width, pose.cell.width);
    const int rows = most(pose.usable.size.height, pose.cell.height);
    for (draft.columns = 1; draft.columns <= columns; ++draft.columns) {
      for (draft.rows = 1; draft.rows <= rows; ++draft.rows) try_gutters(draft, strips);
    }
  }

  static int most(Mm usable, Mm cell) {
    int count = 0;
    while (count < most_lines && fits(cell * (count + 1), usable)) ++count;
    return count;
  }

  void try_gutters(Arrangement draft, Strips strips) {
    const Pose& pose = draft.pose;
    const auto x = widest_gutter(pose.usable.size.width, strips.x, pose.cell.width, draft.columns);
    const auto y = widest_gutter(pose.usable.size.height, strips.y, pose.cell.height, draft.rows);
    if (!x || !y) return;
    draft.sheets = sheets_needed(runs_, draft.capacity());
    for (const Mm gutter : gutters_.within(std::min(*x, *y), draft.lack)) {
      draft.gutter = gutter;
      if (!best_ || rank(draft) < rank(*best_)) best_ = draft;
    }
  }

  /// Smaller is better; docs/decisions/sheet-grids.md says why in this order.
  [[nodiscard]] std::tuple<int, bool, double, bool, int> rank(const Arrangement& a) const {
    const double gutter = piece_.edges_alike ? a.gutter.value : -a.gutter.value;
    const bool landscape = a.pose.paper.width > a.pose.paper.height;
    return {a.sheets, a.pose.turned, gutter, landscape, -a.capacity()};
  }

  const PieceFormat& piece_;
  const std::vector<int>& runs_;
  const game::SheetWishes& wishes_;
  Gutters gutters_;
  std::optional<Arrangement> best_;
};

/// Marks, slug and bleed are given up for a closer grid only when it saves sheets and holds at
/// least a quarter more.
bool is_worth_it(const Arrangement& closer, const Arrangement& than) {
  return closer.sheets < than.sheets && closer.capacity() * 4 >= than.capacity() * 5;
}

}  // namespace

Mm outer_bleed(const PieceFormat& piece, const game::SheetWishes& wishes) {
  if (wishes.backs == game::BackPrinting::none) return piece.bleed;
  return std::max(piece.bleed, piece.back_bleed);
}

std::vector<Pose> poses(const PieceFormat& piece, const game::SheetWishes& wishes) {
  if (!(piece.trim.width > epsilon && piece.trim.height > epsilon)) {
    throw std::invalid_argument("a piece without a size");
  }
  std::vector<Pose> all;
  for (const bool is_turned : {false, true}) {
    if (wishes.turn == (is_turned ? Turn::upright : Turn::turned)) continue;
    for (const Size paper : papers(wishes)) {
      for (const Fold fold : folds(wishes)) {
        const Size whole = unfolded(piece.trim, fold);
        all.push_back({paper, is_turned, fold, is_turned ? turned(whole) : whole,
                       printable_on_both_sides(wishes, paper)});
      }
    }
  }
  return all;
}

std::optional<Choice> choose(const PieceFormat& piece, const std::vector<int>& runs,
                             const game::SheetWishes& wishes) {
  constexpr std::array in_order{Lack::nothing, Lack::marks, Lack::bleed, Lack::slug};
  Search search(piece, runs, wishes);
  std::optional<Arrangement> chosen;
  std::optional<Arrangement> closest;
  for (const Lack lack : in_order) {
    const std::optional<Arrangement> best = search.best(lack);
    if (!best) continue;
    if (!chosen || is_worth_it(*best, *chosen)) chosen = best;
    if (!closest || best->sheets < closest->sheets) closest = best;
    if (wishes.grid) break;
  }
  if (!chosen) chosen = search.best(Lack::bleed_and_marks);
  if (!chosen) return std::nullopt;
  if (closest && closest->sheets >= chosen->sheets) closest.reset();
  return Choice{*chosen, closest};
}

Grid placed(const Arrangement& arrangement) {
  const Pose& pose = arrangement.pose;
  Grid grid;
  grid.paper = pose.paper;
  grid.columns = arrangement.columns;
  grid.rows = arrangement.rows;
  grid.turned = pose.turned;
  grid.fold = pose.fold;
  grid.gutter_x = grid.gutter_y = arrangement.gutter;
  const Vec step{pose.cell.width + arrangement.gutter, pose.cell.height + arrangement.gutter};
  const Point centre = pose.usable.centre();
  grid.at = {centre.x - (step.x * grid.columns - arrangement.gutter) / 2,
             centre.y - (step.y * grid.rows - arrangement.gutter) / 2};
  for (int row = 0; row < grid.rows; ++row) {
    for (int column = 0; column < grid.columns; ++column) {
      grid.trims.push_back({grid.at + Vec{step.x * column, step.y * row}, pose.cell});
    }
  }
  return grid;
}

}  // namespace quoin::sheets
