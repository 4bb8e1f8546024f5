#include "making/tolerance.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <map>
#include <set>

#include "cut/simulate.h"

namespace quoin::making {
namespace {

/// With more than this part of the cards spoilt, more sheets are no remedy.
constexpr double past_help = 0.2;

/// 19 punched corners in 20 lie within this of their edges. Common practice, no source.
constexpr Mm usual_punch{0.2};

/// Bleed where a stray cut shows nothing at all.
constexpr Mm without_end{50};

/// From the sides of a place on the sheet to those of the card that lies there a quarter turn
/// clockwise: its top is on the right.
press::ErrorBudget upright(const press::ErrorBudget& e) {
  return {e.cut_top, e.cut_right, e.cut_bottom, e.cut_left, e.shift_y, e.shift_x, e.turn};
}

press::ErrorBudget front_errors(const cut::EdgeErrors& e, const sheets::Grid& grid, Mm fold,
                                Mm in_pile) {
  press::ErrorBudget errors{e.left, e.top, e.right, e.bottom, in_pile, in_pile, {}};
  if (grid.fold == sheets::Fold::top) (grid.turned ? errors.cut_right : errors.cut_top) = fold;
  if (grid.fold == sheets::Fold::side) (grid.turned ? errors.cut_bottom : errors.cut_right) = fold;
  return grid.turned ? upright(errors) : errors;
}

/// The back is seen from the other side: its left is the front's right. A flip about the other edge
/// turns it half round, which changes nothing that is asked here.
press::ErrorBudget back_errors(const press::ErrorBudget& front, const Register& registration) {
  const auto with_register = [&](Mm in_pile) {
    return Mm{std::hypot(in_pile.value, registration.shift.value)};
  };
  return {front.cut_right,
          front.cut_top,
          front.cut_left,
          front.cut_bottom,
          with_register(front.shift_x),
          with_register(front.shift_y),
          registration.turn};
}

Mm worst_of(const press::ErrorBudget& e) {
  return std::max(std::max(e.cut_left, e.cut_right), std::max(e.cut_top, e.cut_bottom));
}

/// One placing of a face: on which sheet, in which cell, with how much ink past its trim.
struct Place {
  std::size_t face;
  std::size_t cell;
  Mm bleed;
};

/// The cell on the front page that the middle of a rectangle lies in.
std::optional<std::size_t> cell_at(const sheets::Grid& grid, Point middle) {
  for (std::size_t i = 0; i < grid.trims.size(); ++i) {
    const Rect r = grid.trims[i];
    if (middle.x >= r.left() && middle.x <= r.right() && middle.y >= r.top() &&
        middle.y <= r.bottom()) {
      return i;
    }
  }
  return std::nullopt;
}

/// The least bleed on any side. Where cards touch, or all edges are alike, no paper shows: what a
/// stray cut leaves is a neighbour's ink, which `sheet.neighbours-touch` tells of. At a fold,
/// inside of its cell, it is the card's own other side.
Mm least_bleed(const sheets::Placed& placed, const sheets::Plan& plan, Rect cell) {
  const Rect w = placed.window, t = placed.trim;
  const bool folded = plan.grid.fold != sheets::Fold::none;
  const auto side = [folded](Mm bleed, Mm from_cell) {
    return folded && from_cell > epsilon ? without_end : bleed;
  };
  const Mm least = std::min({side(t.left() - w.left(), t.left() - cell.left()),
                             side(w.right() - t.right(), cell.right() - t.right()),
                             side(t.top() - w.top(), t.top() - cell.top()),
                             side(w.bottom() - t.bottom(), cell.bottom() - t.bottom())});
  const bool touching = !(plan.grid.gutter_x > Mm{}) && !(plan.grid.gutter_y > Mm{});
  return plan.piece.edges_alike || touching ? std::max(least, plan.piece.bleed) : least;
}

std::vector<Place> places_on(const sheets::Form& form, const sheets::Plan& plan,
                             const Affine& to_front, std::size_t fronts) {
  std::vector<Place> places;
  for (const sheets::Placed& placed : form.placed) {
    const auto cell = cell_at(plan.grid, to_front(placed.trim.centre()));
    if (!cell) continue;
    const auto drawing = static_cast<std::size_t>(placed.drawing);
    places.push_back({placed.is_back ? fronts + drawing : drawing, *cell,
                      least_bleed(placed, plan, plan.grid.trims[*cell])});
  }
  return places;
}

/// The errors of each cell of a kind of sheet.
std::map<std::size_t, cut::EdgeErrors> errors_by_cell(const SheetKind& kind,
                                                      const cut::Tool& tool) {
  std::map<std::size_t, cut::EdgeErrors> errors;
  for (const cut::EdgeErrors& e : cut::edge_errors(kind.cuts, tool)) {
    errors[static_cast<std::size_t>(e.row * kind.cuts.grid.columns + e.column)] = e;
  }
  return errors;
}

press::Margins margins_of(const game::Game& game, const pieces::FaceMeasure& measure, Mm bleed) {
  press::Margins margins;
  margins.trim = game.card.size;
  margins.bleed = measure.is_paper_at_edge ? without_end : bleed + seen_sliver;
  margins.safe = std::min(measure.kept, without_end);
  margins.border = measure.border ? measure.border->width : Mm{};
  return margins;
}

/// `press::chances`, each asked once: the faces of a deck are much alike.
class KnownChances {
 public:
  explicit KnownChances(double evenness) : evenness_(evenness) {}
  press::Chances of(const press::Margins& m, const press::ErrorBudget& e) {
    const Key key{m.trim.width.value, m.trim.height.value, m.bleed.value,   m.safe.value,
                  m.border.value,     e.cut_left.value,    e.cut_top.value, e.cut_right.value,
                  e.cut_bottom.value, e.shift_x.value,     e.shift_y.value, e.turn.radians};
    const auto found = known_.find(key);
    if (found != known_.end()) return found->second;
    return known_[key] = press::chances(m, e, evenness_);
  }

 private:
  using Key = std::array<double, 12>;
  double evenness_;
  std::map<Key, press::Chances> known_;
};

double spoilt_by(const press::Chances& c) { return 1 - (1 - c.white_edge) * (1 - c.clipped); }

/// How many of independent cards are spoilt in 95 runs of 100: the exact distribution for 2000
/// cards and fewer (a sum of independent trials with chances of their own), else its normal limit.
int at_most(const std::vector<double>& spoilt) {
  constexpr double certainty = 0.95, deviations = 1.6449;
  double mean = 0, variance = 0;
  for (const double p : spoilt) {
    mean += p;
    variance += p * (1 - p);
  }
  if (spoilt.size() > 2000) {
    return static_cast<int>(std::ceil(mean + deviations * std::sqrt(variance)));
  }
  std::vector<double> exactly{1};
  for (const double p : spoilt) {
    exactly.push_back(0);
    for (std::size_t k = exactly.size() - 1; k > 0; --k) {
      exactly[k] = exactly[k] * (1 - p) + exactly[k - 1] * p;
    }
    exactly[0] *= 1 - p;
  }
  double below = 0;
  for (std::size_t k = 0; k < exactly.size(); ++k) {
    below += exactly[k];
    if (below >= certainty) return static_cast<int>(k);
  }
  return static_cast<int>(spoilt.size());
}

/// How many of the sheets are not like another: of several decks each deck has the same.
int distinct_forms(const std::vector<sheets::Sheet>& all) {
  std::set<std::vector<int>> forms;
  for (const sheets::Sheet& sheet : all) {
    std::vector<int> faces;
    for (const sheets::Placed& placed : sheet.front.placed) faces.push_back(placed.drawing);
    forms.insert(std::move(faces));
  }
  return static_cast<int>(forms.size());
}

/// A run while its cards are gone through.
class Reckoning {
 public:
  Reckoning(const game::Game& game, const sheets::Plan& plan, const Cutting& cutting,
            const std::vector<FaceFacts>& faces, std::size_t fronts, const Register& registration)
      : game_(game),
        plan_(plan),
        faces_(faces),
        fronts_(fronts),
        registration_(registration),
        known_(game.making.cutting.evenness),
        sums_(faces.size()),
        places_(faces.size(), 0) {
    result_.registration = registration;
    const game::PrinterWishes& printer = game.printer;
    result_.feed = printer.feed_within ? *printer.feed_within / 2 : press::usual_feed(printer.kind);
    if (cutting.corners.punches > 0) {
      const Mm punch = game.making.cutting.punch_within.value_or(usual_punch) / 2;
      result_.rough_corners = press::rough_corner(punch, felt_step);
    }
    result_.faces.resize(faces.size());
    for (FaceTolerance& face : result_.faces) face.margins.bleed = without_end;
    for (const SheetKind& kind : cutting.kinds) {
      const auto errors = errors_by_cell(kind, cutting.tool);
      in_pile_ = press::stray_in_pile(result_.feed, kind.piling.at_once);
      for (const int sheet : kind.sheets) add_sheet(static_cast<std::size_t>(sheet), errors);
    }
  }

  Tolerances conclude() {
    average();
    worst_case();
    run();
    return std::move(result_);
  }

 private:
  void add_sheet(std::size_t index, const std::map<std::size_t, cut::EdgeErrors>& errors) {
    const sheets::Sheet& sheet = plan_.sheets[index];
    std::map<std::size_t, double> good;  // of each cell: the chance that nothing is wrong
    for (const Place& place : places_on(sheet.front, plan_, {}, fronts_)) add(place, errors, good);
    const Affine back = sheets::behind(plan_.grid.paper, plan_.wishes.flip);  // its own inverse
    for (const Place& place : places_on(sheet.back, plan_, back, fronts_)) add(place, errors, good);
    for (const auto& [cell, chance] : good) spoilt_.push_back(1 - chance);
  }

  void add(const Place& place, const std::map<std::size_t, cut::EdgeErrors>& errors,
           std::map<std::size_t, double>& good) {
    const auto edges = errors.find(place.cell);
    if (edges == errors.end() || place.face >= faces_.size()) return;
    const FaceFacts& face = faces_[place.face];
    const press::ErrorBudget front =
        front_errors(edges->second, plan_.grid, registration_.shift, in_pile_);
    const press::ErrorBudget errors_here = face.is_back ? back_errors(front, registration_) : front;
    const press::Margins margins = margins_of(game_, face.measure, place.bleed);
    const press::Chances chances = known_.of(margins, errors_here);
    press::Chances& sum = sums_[place.face];
    sum.white_edge += chances.white_edge;
    sum.clipped += chances.clipped;
    sum.lopsided += chances.lopsided;
    ++places_[place.face];
    const auto cell = good.emplace(place.cell, 1).first;
    cell->second *= 1 - spoilt_by(chances);
    FaceTolerance& kept = result_.faces[place.face];
    if (margins.bleed <= kept.margins.bleed) kept.margins = margins;
    SideTolerance& side = face.is_back ? result_.back : result_.front;
    if (worst_of(errors_here) >= worst_of(side.worst)) side.worst = errors_here;
    result_.cut_within = std::max(result_.cut_within, worst_of(errors_here) * 2);
  }

  void average() {
    for (std::size_t i = 0; i < faces_.size(); ++i) {
      result_.faces[i].places = places_[i];
      const double n = std::max(places_[i], 1);
      result_.faces[i].chances = {sums_[i].white_edge / n, sums_[i].clipped / n,
                                  sums_[i].lopsided / n};
    }
  }

  void worst_case() {
    press::Margins any;
    any.trim = game_.card.size;
    any.border = Mm{1};
    const game::CuttingWishes& wishes = game_.making.cutting;
    for (SideTolerance* side : {&result_.front, &result_.back}) {
      if (worst_of(side->worst) <= Mm{}) continue;
      side->needed = press::needed_for(wishes.target, any, side->worst, wishes.evenness);
    }
    for (std::size_t i = 0; i < faces_.size(); ++i) {
      if (places_[i] == 0) continue;
      const SideTolerance& side = faces_[i].is_back ? result_.back : result_.front;
      result_.faces[i].at_worst = known_.of(result_.faces[i].margins, side.worst);
    }
  }

  void run() {
    for (const double chance : spoilt_) result_.spoilt += chance;
    result_.spoilt_at_most = at_most(spoilt_);
    const int forms = distinct_forms(plan_.sheets);
    if (forms == 0 || spoilt_.empty()) return;
    press::PrintRun wanted;
    wanted.forms = forms;
    wanted.copies = (static_cast<int>(plan_.sheets.size()) + forms - 1) / forms;
    wanted.per_sheet = static_cast<int>((spoilt_.size() + plan_.sheets.size() - 1) / forms);
    wanted.spoilt = result_.spoilt / static_cast<double>(spoilt_.size());
    if (wanted.spoilt > past_help) return;
    result_.spares = press::spares(wanted).of_each;
    result_.spare_sheets = result_.spares * forms;
  }

  const game::Game& game_;
  const sheets::Plan& plan_;
  const std::vector<FaceFacts>& faces_;
  std::size_t fronts_;
  const Register& registration_;
  Mm in_pile_;  // of the kind of sheet that is gone through
  KnownChances known_;
  std::vector<press::Chances> sums_;
  std::vector<int> places_;
  std::vector<double> spoilt_;
  Tolerances result_;
};

}  // namespace

Register usual_register(const game::Game& game) {
  const game::PrinterWishes& printer = game.printer;
  const press::Spread usual = press::usual_spread(printer.kind, game.sheets.backs);
  Register registration;
  registration.is_assumed = !printer.register_within.has_value();
  registration.shift = std::max(usual.shift_x, usual.shift_y);
  if (game.sheets.backs == game::BackPrinting::fold) registration.shift = fold_strays;
  if (printer.register_within) registration.shift = *printer.register_within / 2;
  registration.turn = printer.askew_within ? Angle{printer.askew_within->radians / 2} : usual.turn;
  return registration;
}

Register measured_register(const press::Profile& printer) {
  const press::Spread& spread = printer.spread;
  return {std::max(spread.shift_x, spread.shift_y), spread.turn, false};
}

Tolerances tolerances(const game::Game& game, const sheets::Plan& plan, const Cutting& cutting,
                      const std::vector<FaceFacts>& faces, int fronts,
                      const Register& registration) {
  return Reckoning(game, plan, cutting, faces, static_cast<std::size_t>(fronts), registration)
      .conclude();
}

}  // namespace quoin::making
