#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "making/tolerance.h"
#include "sheets/printable.h"
#include "sheets/wording.h"

namespace quoin::making {
namespace {

/// 19 of 20 lie within: the blade and the print together, at their worst.
Mm spread(const press::ErrorBudget& e) {
  const Mm cut = std::max(std::max(e.cut_left, e.cut_right), std::max(e.cut_top, e.cut_bottom));
  return Mm{2 * std::hypot(cut.value, std::max(e.shift_x, e.shift_y).value)};
}

/// Up to the next tenth, so that the printed number is enough.
std::string at_least(Mm length) {
  return fmt::format("{:.1f} mm", std::ceil(length.value * 10 - 1e-6) / 10);
}

/// A face above the maker's target, as all that is said of it needs it.
struct Case {
  const FaceFacts& face;
  const FaceTolerance& tolerance;
  const SideTolerance& side;
  Mm spread;
  const Tolerances& all;
};

Diagnostic& say_where_from(Diagnostic& problem, const Case& c) {
  if (!c.face.is_back || !c.all.registration.is_assumed) return problem;
  return problem.detail(fmt::format(
      "backs are taken to meet their fronts within {:.1f} mm, as is usual; when you know your "
      "printer, write register = … under [printer]",
      c.all.registration.shift.value * 2));
}

Diagnostic lopsided(const Case& c) {
  const pieces::Border& border = *c.face.measure.border;
  Diagnostic problem(
      Id::tolerance_lopsided_border, border.origin,
      fmt::format("a border of {:.1f} mm on a spread of {:.1f} mm: {} will look crooked",
                  border.width.value, c.spread.value, in_words(c.tolerance.at_worst.lopsided)));
  problem.on(c.face.piece, border.element);
  say_where_from(problem, c);
  return problem.hint(
      fmt::format("make the border {} or wider, or leave it out", at_least(c.side.needed.border)));
}

Diagnostic white_edge(const Case& c) {
  const Mm bleed = std::max(c.tolerance.margins.bleed - seen_sliver, Mm{});
  Diagnostic problem(
      Id::tolerance_white_edge, c.face.row,
      fmt::format("a bleed of {:.1f} mm on a spread of {:.1f} mm: {} will show a strange edge",
                  bleed.value, c.spread.value, in_words(c.tolerance.at_worst.white_edge)));
  problem.on(c.face.piece);
  say_where_from(problem, c);
  const Mm needed = std::max(c.side.needed.bleed - seen_sliver, Mm{});
  return problem.hint(
      fmt::format("leave {} of bleed: spacing = \"gutters\" under [sheets]{}", at_least(needed),
                  c.face.is_back ? ", and back-bleed when that is not enough" : ""));
}

Diagnostic clipped(const Case& c) {
  const pieces::FaceMeasure& measure = c.face.measure;
  Diagnostic problem(
      Id::tolerance_clipped, measure.kept_origin,
      fmt::format("{:.1f} mm to the edge on a spread of {:.1f} mm: {} will be clipped",
                  measure.kept.value, c.spread.value, in_words(c.tolerance.at_worst.clipped)));
  problem.on(c.face.piece, measure.kept_element);
  say_where_from(problem, c);
  return problem.hint(fmt::format("keep {} from the edge", at_least(c.side.needed.safe)));
}

void check_spares(const game::Game& game, const Tolerances& all, Diagnostics& found) {
  if (all.spares == 0 && all.spoilt < 1) return;
  Diagnostic problem(
      Id::tolerance_spares, game.sheets.origin,
      fmt::format("{:.1f} cards will be spoilt on average, and in 19 runs of 20 no more than {}",
                  all.spoilt, all.spoilt_at_most));
  if (all.spares == 0) {
    found.push_back(
        problem.hint("mend first what the other findings name; spare sheets are no remedy"));
    return;
  }
  found.push_back(problem.hint(fmt::format("print {} of each sheet, {} in all",
                                           sheets::counted(all.spares, "spare"),
                                           sheets::counted(all.spare_sheets, "sheet"))));
}

void check_corners(const game::Game& game, const Tolerances& all, Diagnostics& found) {
  if (all.rough_corners <= game.making.cutting.target) return;
  Diagnostic problem(Id::tolerance_rough_corners, game.making.cutting.punch_origin,
                     fmt::format("{} will have a corner that does not meet its edges",
                                 in_words(all.rough_corners)));
  found.push_back(std::move(problem.detail(
      fmt::format("a step of {:.1f} mm or more is taken to be seen", felt_step.value))));
}

/// One finding for all faces of which the same is to be said: the first, with the others named.
Diagnostics told_once(Diagnostics each) {
  constexpr std::size_t most_named = 3;
  Diagnostics once;
  std::map<std::string, std::vector<std::string>> others;
  const auto key = [](const Diagnostic& d) {
    return fmt::format("{} {} {}", static_cast<int>(d.id), d.place.element, d.message);
  };
  for (Diagnostic& problem : each) {
    const auto [known, is_new] = others.try_emplace(key(problem));
    if (is_new) {
      once.push_back(std::move(problem));
    } else {
      known->second.push_back(problem.place.piece);
    }
  }
  for (Diagnostic& problem : once) {
    const std::vector<std::string>& also = others[key(problem)];
    if (also.empty()) continue;
    const std::size_t named = also.size() <= most_named ? also.size() : most_named - 1;
    std::string words = fmt::format("also {}", fmt::join(also.begin(), also.begin() + named, ", "));
    if (named < also.size()) words += fmt::format(" and {} more", also.size() - named);
    problem.detail(std::move(words));
  }
  return once;
}

/// The chance that the back of a card is not right.
double shows(const press::Chances& chances) {
  return 1 - (1 - chances.white_edge) * (1 - chances.lopsided);
}

}  // namespace

std::string in_words(double chance) {
  if (chance > 0.9) return "nearly all";
  if (chance > 0.6) return "most";
  if (chance > 0.4) return "half";
  if (chance < 0.0005) return "none";
  return fmt::format("1 in {:.0f}", 1 / chance);
}

Diagnostics check_weight(const game::Game& game, const press::Profile* printer) {
  std::optional<double> most = game.printer.heaviest;
  Origin where = game.printer.heaviest_origin;
  std::string who = "the printer";
  if (!most && printer != nullptr) {
    most = printer->heaviest;
    where = game.stock.origin;
    who = printer->id;
  }
  if (!most || !game.stock.grammage || *game.stock.grammage <= *most) return {};
  Diagnostic problem(Id::sheet_too_heavy, where,
                     fmt::format("the cards' paper is {:g} g/m², and {} takes {:g} g/m²",
                                 *game.stock.grammage, who, *most));
  problem.detail("it may jam, or be drawn in askew");
  return {problem.hint("use its straight way through, a lighter paper, or a copy shop")};
}

Diagnostics check_backs_meet(const game::Game& game, const Tolerances& all, int fronts) {
  if (!sheets::has_back_forms(game.sheets)) return {};
  const double evenness = game.making.cutting.evenness;
  double cards = 0, spoilt = 0, folded = 0;
  for (std::size_t i = static_cast<std::size_t>(fronts); i < all.faces.size(); ++i) {
    press::Margins margins = all.faces[i].margins;
    margins.bleed = std::max(margins.bleed, widest_bleed);
    press::ErrorBudget errors = all.back.worst;
    const int n = all.faces[i].places;
    cards += n;
    spoilt += n * shows(press::chances(margins, errors, evenness));
    errors.shift_x = errors.shift_y = fold_strays;
    errors.turn = {};
    folded += n * shows(press::chances(margins, errors, evenness));
  }
  if (cards <= 0 || spoilt <= hopeless * cards || folded > spoilt / 2) return {};
  const auto percent = [cards](double count) { return 100 * count / cards; };
  Diagnostic problem(
      Id::tolerance_fold_instead, game.sheets.origin,
      fmt::format("{:.0f} of 100 backs will have a crooked border or a white edge, and {:.0f} of "
                  "100 when they are folded and glued",
                  percent(spoilt), percent(folded)));
  problem.detail(fmt::format(
      "backs stray by {:.1f} mm{}; that is with {:g} mm of bleed, and more bleed is no remedy",
      all.registration.shift.value * 2,
      all.registration.is_assumed ? ", as is usual for a printer that was not measured" : "",
      widest_bleed.value));
  problem.hint(
      "write backs = \"fold\" under [sheets]: both sides beside each other, folded and glued");
  if (all.registration.is_assumed) problem.hint("or measure the printer: quoin printer says how");
  return {problem};
}

Diagnostics check_tolerances(const game::Game& game, const Tolerances& all,
                             const std::vector<FaceFacts>& faces) {
  Diagnostics found;
  const double target = game.making.cutting.target;
  for (std::size_t i = 0; i < faces.size() && i < all.faces.size(); ++i) {
    const SideTolerance& side = faces[i].is_back ? all.back : all.front;
    const Case one{faces[i], all.faces[i], side, spread(side.worst), all};
    const press::Chances& chances = all.faces[i].at_worst;
    if (faces[i].measure.border && chances.lopsided > target) found.push_back(lopsided(one));
    if (chances.white_edge > target) found.push_back(white_edge(one));
    if (chances.clipped > target) found.push_back(clipped(one));
  }
  found = told_once(std::move(found));
  check_corners(game, all, found);
  check_spares(game, all, found);
  return found;
}

}  // namespace quoin::making
