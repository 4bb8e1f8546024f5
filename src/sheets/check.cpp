#include <fmt/format.h>

#include "sheets/arrangement.h"
#include "sheets/printable.h"
#include "sheets/slug.h"
#include "sheets/wording.h"

namespace quoin::sheets {
namespace {

/// Looks at one plan, a check to a function.
class Inspection {
 public:
  explicit Inspection(const Plan& plan)
      : plan_(plan),
        room_(room_beyond_trims(plan.grid, plan.wishes)),
        bleed_(outer_bleed(plan.piece, plan.wishes)) {}

  Diagnostics found() {
    trims();
    outer_bleeds();
    room_for_marks();
    room_for_slug();
    neighbours();
    back_bleeds();
    blank_backs();
    backs_by_hand();
    return std::move(found_);
  }

 private:
  Diagnostic& say(Id id, std::string message) {
    return found_.emplace_back(id, plan_.wishes.origin, std::move(message));
  }
  [[nodiscard]] std::string pieces() const { return many(plan_.piece.name); }
  [[nodiscard]] std::string more_room() const {
    const bool is_alone = plan_.grid.columns * plan_.grid.rows == 1;
    return is_alone ? "use a larger paper" : "use fewer columns or rows, or a larger paper";
  }

  void trims();
  void outer_bleeds();
  void room_for_marks();
  void room_for_slug();
  void neighbours();
  void back_bleeds();
  void blank_backs();
  void backs_by_hand();

  const Plan& plan_;
  Insets room_;  ///< beyond the trims
  Mm bleed_;
  Diagnostics found_;
};

/// The least of the four widths.
Mm least(Insets i) { return std::min({i.top, i.right, i.bottom, i.left}); }

bool has_columns(const Grid& grid) { return grid.columns > 1; }
bool has_rows(const Grid& grid) { return grid.rows > 1; }

/// The narrowest gap between neighbours; nothing when there are none.
std::optional<Mm> narrowest_gutter(const Grid& grid) {
  if (has_columns(grid) && has_rows(grid)) return std::min(grid.gutter_x, grid.gutter_y);
  if (has_columns(grid)) return grid.gutter_x;
  if (has_rows(grid)) return grid.gutter_y;
  return std::nullopt;
}

void Inspection::trims() {
  if (least(room_) >= -epsilon) return;
  const std::string sides = sides_narrower_than(Mm{0}, room_);
  say(Id::sheet_trim_in_dead_margin,
      fmt::format("the outermost {} reach {} into the dead margin at {}", pieces(),
                  millimetres(-least(room_)), sides))
      .detail("the printer leaves that strip white")
      .hint(more_room());
}

void Inspection::outer_bleeds() {
  const Mm printed = std::max(Mm{0}, least(room_));
  if (fits(bleed_, printed)) return;
  const bool only_backs = fits(plan_.piece.bleed, printed);
  say(Id::sheet_bleed_in_dead_margin,
      fmt::format("{} of the {}{} bleed can be printed at {} of the sheet", millimetres(printed),
                  only_backs ? "backs' " : "", millimetres(bleed_),
                  sides_narrower_than(bleed_, room_)))
      .detail(fmt::format("a cut more than {} too far out leaves a white line along the edge of an "
                          "outermost {}",
                          millimetres(printed), plan_.piece.name))
      .hint(more_room());
}

void Inspection::room_for_marks() {
  const Insets beyond{room_.top - bleed_, room_.right - bleed_, room_.bottom - bleed_,
                      room_.left - bleed_};
  if (fits(marks_strip, least(beyond))) return;
  const Mm there = std::max(Mm{0}, least(beyond));
  Diagnostic& d = say(Id::sheet_no_room_for_marks,
                      fmt::format("crop marks at {} have {} beyond the bleed, and need {}",
                                  sides_narrower_than(marks_strip, beyond), millimetres(there),
                                  millimetres(marks_strip)));
  const bool some_left = there >= mark_clearance + shortest_mark;
  d.detail(some_left ? "they are drawn shorter, and are hard to set a blade by"
                     : "they are left out, so the cuts that end there have nothing to be set by");
  d.hint(more_room());
  if (plan_.piece.bleed > least_bleed) {
    d.hint(fmt::format("a smaller bleed leaves more room: it is {}", millimetres(bleed_)));
  }
}

void Inspection::room_for_slug() {
  const PageFrame frame = page_frame(plan_, Side::front);
  const auto rows = slug_rows(frame, target_places(frame, crop_marks(frame)));
  if (rows && fits(shortest_bar, rows->bar.length)) return;
  const Insets strip = strips(frame);
  const Mm widest = std::max(std::min(strip.top, strip.bottom), std::min(strip.left, strip.right));
  const std::string lacks =
      rows ? fmt::format("the free row beside the {} is {} long, and the measuring bar needs {}",
                         pieces(), millimetres(rows->bar.length), millimetres(shortest_bar))
           : fmt::format(
                 "the widest strip beside the {} is {}, and the measuring bar with its "
                 "words needs {}",
                 pieces(), millimetres(widest), millimetres(slug_strip));
  say(Id::sheet_no_room_for_slug, lacks)
      .detail("sheets go without the bar that shows a print at the wrong scale")
      .hint(fmt::format("measure a {} on the first sheet: its trim is {}", plan_.piece.name,
                        millimetres(plan_.piece.trim)));
}

void Inspection::neighbours() {
  const std::optional<Mm> gutter = narrowest_gutter(plan_.grid);
  const Mm full = plan_.piece.bleed * 2;
  if (!gutter || plan_.piece.edges_alike) return;
  if (*gutter <= epsilon) {
    say(Id::sheet_neighbours_touch,
        fmt::format("{} touch with 0 mm between them although their edges differ", pieces()))
        .detail(
            fmt::format("a cut 0.5 mm off shows 0.5 mm of the neighbouring {}", plan_.piece.name))
        .hint(fmt::format("spacing = \"gutters\" puts {} between them, for fewer to a sheet",
                          millimetres(full)));
  } else if (!fits(full, *gutter)) {
    say(Id::sheet_narrow_gutter,
        fmt::format("a gutter of {} leaves each {} {} of its {} bleed towards a neighbour",
                    millimetres(*gutter), plan_.piece.name, millimetres(*gutter / 2),
                    millimetres(plan_.piece.bleed)))
        .detail(fmt::format("a cut more than {} off shows a sliver of the neighbour",
                            millimetres(*gutter / 2)))
        .hint(fmt::format("spacing = \"gutters\" puts {} between them", millimetres(full)));
  }
}

void Inspection::back_bleeds() {
  const std::optional<Mm> gutter = narrowest_gutter(plan_.grid);
  const bool asked_for_more = plan_.piece.back_bleed > plan_.piece.bleed + epsilon;
  if (!gutter || !asked_for_more || plan_.wishes.backs == game::BackPrinting::none) return;
  if (plan_.piece.edges_alike || fits(plan_.piece.back_bleed, *gutter / 2)) return;
  say(Id::sheet_back_bleed_cut,
      fmt::format("backs have {} of their {} bleed towards a neighbour", millimetres(*gutter / 2),
                  millimetres(plan_.piece.back_bleed)))
      .hint(fmt::format("spacing = {} gives them all of it", number(plan_.piece.back_bleed * 2)));
}

void Inspection::blank_backs() {
  if (plan_.wishes.backs == game::BackPrinting::none) {
    say(Id::sheet_backs_not_printed,
        fmt::format("only the fronts are printed: {}",
                    counted(static_cast<int>(plan_.sheets.size()), "page")))
        .hint("backs = \"printer\", \"by-hand\" or \"fold\" prints backs too");
    return;
  }
  long pieces_laid = 0, blank = 0;
  for (const Sheet& sheet : plan_.sheets) {
    const auto taken =
        std::count_if(sheet.copies.begin(), sheet.copies.end(), [](int copy) { return copy >= 0; });
    const bool folded = plan_.grid.fold != Fold::none;
    const std::vector<Placed>& form = folded ? sheet.front.placed : sheet.back.placed;
    const auto backs =
        std::count_if(form.begin(), form.end(), [](const Placed& p) { return p.is_back; });
    pieces_laid += taken;
    blank += std::max<long>(0, taken - backs);
  }
  if (blank == 0) return;
  say(Id::sheet_blank_backs, fmt::format("{} of {} {} no back", blank,
                                         counted(static_cast<int>(pieces_laid), plan_.piece.name),
                                         blank == 1 ? "has" : "have"))
      .hint("give the deck or the suit a back, or print with backs = \"none\"");
}

void Inspection::backs_by_hand() {
  if (plan_.wishes.backs != game::BackPrinting::by_hand || plan_.backs_interchangeable) return;
  const std::size_t forms = distinct_backs(plan_).size();
  if (plan_.sheets.size() < 2 || forms == 0) return;
  say(Id::sheet_backs_in_order,
      fmt::format(
          "{} have {}, so each has to go back into the printer in its turn",
          counted(static_cast<int>(plan_.sheets.size()), "sheet"),
          forms == 1 ? "backs on some only" : fmt::format("{} different sets of backs", forms)))
      .hint("try the first two sheets before the rest");
}

}  // namespace

Diagnostics check(const Plan& plan) { return Inspection(plan).found(); }

}  // namespace quoin::sheets
