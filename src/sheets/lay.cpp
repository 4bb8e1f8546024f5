#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <stdexcept>

#include "sheets/arrangement.h"
#include "sheets/page_frame.h"
#include "sheets/placing.h"
#include "sheets/printable.h"
#include "sheets/wording.h"

namespace quoin::sheets {
namespace {

using game::BackPrinting;
using game::SheetOrder;

/// Indices of copies that start on a new sheet together.
using Run = std::vector<int>;

/// Copies by `key`, the keys in the order in which they first appear, the order kept within each.
template <typename Key>
std::vector<Run> gathered(const std::vector<Copy>& copies, Key key) {
  std::vector<Run> runs;
  std::map<decltype(key(copies.front())), std::size_t> seen;
  for (int i = 0; i < static_cast<int>(copies.size()); ++i) {
    const auto [place, is_new] = seen.try_emplace(key(copies[i]), runs.size());
    if (is_new) runs.emplace_back();
    runs[place->second].push_back(i);
  }
  return runs;
}

std::vector<Run> by_deck(const std::vector<Copy>& copies) {
  return gathered(copies, [](const Copy& c) { return c.deck; });
}

/// Runs by suit, the decks kept together.
std::vector<Run> by_suit(const std::vector<Copy>& copies) {
  std::vector<Run> runs;
  for (const Run& deck : by_deck(copies)) {
    std::map<std::string, std::size_t> seen;
    for (const int i : deck) {
      const auto [place, is_new] = seen.try_emplace(copies[i].group, runs.size());
      if (is_new) runs.emplace_back();
      runs[place->second].push_back(i);
    }
  }
  return runs;
}

std::vector<Run> runs_of(const std::vector<Copy>& copies, SheetOrder order) {
  if (order == SheetOrder::by_suit) return by_suit(copies);
  Run all;
  for (const Run& deck : by_deck(copies)) all.insert(all.end(), deck.begin(), deck.end());
  return {all};
}

std::vector<int> lengths(const std::vector<Run>& runs) {
  std::vector<int> all;
  for (const Run& run : runs) all.push_back(static_cast<int>(run.size()));
  return all;
}

/// Which copy lies in which cell, sheet by sheet; -1 for none.
std::vector<std::vector<int>> dealt(const Run& run, int cells, SheetOrder order) {
  const int count = static_cast<int>(run.size());
  const int sheets = (count + cells - 1) / cells;
  std::vector<std::vector<int>> all(sheets, std::vector<int>(cells, -1));
  for (int i = 0; i < count; ++i) {
    if (order == SheetOrder::cut_and_stack) {
      all[i % sheets][i / sheets] = run[i];
    } else {
      all[i / cells][i % cells] = run[i];
    }
  }
  return all;
}

/// The back that all copies of the sheet share; -1 when they do not or have none.
int common_back(const std::vector<int>& cells, const std::vector<Copy>& copies) {
  int common = -1;
  for (const int i : cells) {
    if (i < 0) continue;
    if (copies[i].back < 0) return -1;
    if (common >= 0 && copies[i].back != common) return -1;
    common = copies[i].back;
  }
  return common;
}

Sheet filled(const std::vector<int>& cells, const std::vector<Copy>& copies, const Plan& plan) {
  const Placing placing(plan.grid, plan.piece, plan.wishes);
  const bool two_sided = has_back_forms(plan.wishes);
  const int common = two_sided ? common_back(cells, copies) : -1;
  std::vector<bool> taken, everywhere(cells.size(), true);
  for (const int i : cells) taken.push_back(i >= 0);
  Sheet sheet;
  sheet.copies = cells;
  for (int cell = 0; cell < static_cast<int>(cells.size()); ++cell) {
    if (common >= 0) sheet.back.placed.push_back(placing.back(common, cell, everywhere));
    if (cells[cell] < 0) continue;
    const Copy& copy = copies[cells[cell]];
    sheet.front.placed.push_back(placing.front(copy.front, cell, taken));
    if (copy.back < 0) continue;
    if (plan.grid.fold != Fold::none) {
      sheet.front.placed.push_back(placing.folded_back(copy.back, cell, taken));
    } else if (two_sided && common < 0) {
      sheet.back.placed.push_back(placing.back(copy.back, cell, taken));
    }
  }
  return sheet;
}

bool all_backs_alike(const std::vector<Sheet>& sheets) {
  const Form& first = sheets.front().back;
  return !first.placed.empty() &&
         std::all_of(sheets.begin(), sheets.end(), [&](const Sheet& s) { return s.back == first; });
}

std::string order_words(const Plan& plan) {
  switch (plan.wishes.order) {
    case SheetOrder::list:
      return "order: as in the list, row by row from the top left of each sheet";
    case SheetOrder::by_suit:
      return "order: each suit on sheets of its own";
    case SheetOrder::cut_and_stack:
      return fmt::format(
          "order: for cutting the whole stack at once, sheet 1 on top, fronts up; then lay the "
          "piles on one another with the top left one on top, row by row: the {} are in order",
          many(plan.piece.name));
  }
  throw std::logic_error("an order outside its enumeration");
}

std::string turned_about(const Plan& plan) {
  return plan.wishes.flip == game::FlipEdge::long_edge ? "turned about the long edge"
                                                       : "turned about the short edge";
}

std::string hand_words(const Plan& plan) {
  const std::string sheets = turned_about(plan);
  if (plan.wishes.pile == game::Pile::face_down) {
    return "backs: by hand, " + sheets +
           "; the pile comes out face down and goes back as it lies, so the last sheet's backs are "
           "printed first";
  }
  return "backs: by hand, " + sheets +
         "; the pile comes out face up and is turned over as a whole, so the first sheet's backs "
         "are printed first";
}

std::string backs_words(const Plan& plan) {
  switch (plan.wishes.backs) {
    case BackPrinting::printer:
      return "backs: by the printer, " + turned_about(plan);
    case BackPrinting::by_hand:
      return hand_words(plan);
    case BackPrinting::fold:
      return "backs: on the same side as their fronts, across a fold; cut the sheet into strips, "
             "fold and glue each, then cut the " +
             many(plan.piece.name) + " apart";
    case BackPrinting::none:
      return "backs: none";
  }
  throw std::logic_error("a way of printing backs outside its enumeration");
}

/// What a closer grid does without, in numbers.
std::string lacking_words(const Arrangement& closer, const Plan& plan) {
  const Insets room = room_beyond_trims(placed(closer), plan.wishes);
  const Mm bleed = outer_bleed(plan.piece, plan.wishes);
  const Mm narrowest = std::min({room.top, room.right, room.bottom, room.left});
  std::string text;
  if (!fits(bleed, narrowest)) {
    text += fmt::format(", with {} of bleed at {}", millimetres(narrowest),
                        sides_narrower_than(bleed, room));
  }
  const Mm marks = bleed + marks_strip;
  if (!fits(marks, narrowest)) {
    text += ", without room for crop marks at " + sides_narrower_than(marks, room);
  }
  if (closer.lack == Lack::slug) text += ", without the measuring bar";
  return text;
}

std::string closer_words(const Arrangement& closer, const Plan& plan, int sheets) {
  return fmt::format("closer: {} x {} would take {} instead of {}{}: grid = \"{}x{}\"",
                     closer.columns, closer.rows, counted(closer.sheets, "sheet"), sheets,
                     lacking_words(closer, plan), closer.columns, closer.rows);
}

void tell_choices(Plan& plan, const Choice& choice) {
  plan.choices.push_back("grid: " + plan.grid.why);
  if (choice.closer)
    plan.choices.push_back(closer_words(*choice.closer, plan, choice.chosen.sheets));
  plan.choices.push_back(order_words(plan));
  plan.choices.push_back(backs_words(plan));
  if (plan.backs_interchangeable && plan.sheets.size() > 1) {
    plan.choices.push_back("backs: the same on every sheet, so any sheet may go with any");
  }
}

}  // namespace

Result<Plan> lay(const std::vector<Copy>& copies, const PieceFormat& piece,
                 const game::SheetWishes& wishes) {
  if (copies.empty()) {
    return Diagnostic(Id::sheet_nothing_to_print, wishes.origin,
                      fmt::format("there are no {} to lay on sheets", many(piece.name)))
        .hint("give at least one row of the card list one copy or more");
  }
  const std::vector<Run> runs = runs_of(copies, wishes.order);
  Result<ChosenGrid> chosen = best_grid_for(piece, lengths(runs), wishes);
  if (!chosen) return std::move(chosen).why();
  Plan plan{std::move(chosen->grid), wishes, piece, {}, false, {}};
  const int cells = plan.grid.columns * plan.grid.rows;
  for (const Run& run : runs) {
    for (const std::vector<int>& sheet : dealt(run, cells, wishes.order)) {
      plan.sheets.push_back(filled(sheet, copies, plan));
    }
  }
  plan.backs_interchangeable = all_backs_alike(plan.sheets);
  tell_choices(plan, chosen->choice);
  return plan;
}

}  // namespace quoin::sheets
