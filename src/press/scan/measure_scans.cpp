#include "press/scan/measure_scans.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace quoin::press {
namespace {

/// A shared thing: where the front's print has it, and where that of the back would have it if it
/// lay exactly behind.
std::vector<Pair> shared_pins(const SideSeen& front, const std::map<int, Point>& back,
                              const Affine& behind) {
  std::vector<Pair> pairs;
  for (const auto& [index, place] : front.pins) {
    const auto seen = back.find(index);
    if (seen != back.end()) pairs.push_back({behind(seen->second), place});
  }
  return pairs;
}

std::vector<Pair> shared_corners(const SideSeen& front, const SideSeen& back,
                                 const Affine& behind) {
  std::vector<Pair> pairs;
  if (!front.corners || !back.corners) return pairs;
  for (const Point corner : *back.corners) {
    const Point meant = behind(corner);
    const auto nearest =
        std::min_element(front.corners->begin(), front.corners->end(),
                         [&](Point a, Point b) { return length(a - meant) < length(b - meant); });
    pairs.push_back({meant, *nearest});
  }
  return pairs;
}

/// Pinholes under both guesses of how the sheet was turned: the one that fits more of them.
struct Turned {
  game::FlipEdge flip;
  std::vector<Pair> pairs;
};

Turned by_pins(const SideSeen& front, const SideSeen& back, game::FlipEdge believed) {
  const Size paper = front.layout.paper;
  const auto with = [&](game::FlipEdge flip) {
    const bool is_long = flip == game::FlipEdge::long_edge;
    return Turned{flip, shared_pins(front, is_long ? back.pins : back.pins_if_short_edge,
                                    turned_over(paper, flip))};
  };
  Turned a = with(believed);
  Turned b = with(believed == game::FlipEdge::long_edge ? game::FlipEdge::short_edge
                                                        : game::FlipEdge::long_edge);
  return b.pairs.size() > a.pairs.size() ? b : a;
}

Diagnostic no_reference(const SideSeen& front, const SideSeen& back, FileName back_file) {
  Diagnostic found(
      Id::press_scan_without_reference, {back_file},
      fmt::format("{} pinholes are seen on the front and {} on the back, and 4 are needed on both",
                  front.pins.size(), std::max(back.pins.size(), back.pins_if_short_edge.size())));
  found.detail(
      "the paper's own edges would do, but they do not all stand out from what lies "
      "behind");
  found.hint("prick the middle of all six rings through the sheet");
  return found.hint("lay black paper behind the sheet, so that holes and edges are dark");
}

Diagnostic wrong_side(SheetSide wanted, FileName file) {
  const bool front = wanted == SheetSide::front;
  return Diagnostic(Id::press_scan_wrong_side, {file},
                    front ? "the picture given as the front shows the back"
                          : "the picture given as the back shows the front")
      .hint("name the picture of the front first, then that of the back");
}

Diagnostic references_apart(FileName file, Reference reference, Mm rms) {
  const bool pins = reference == Reference::pinholes;
  return Diagnostic(
             Id::press_scan_reference_apart, {file},
             fmt::format("the {} of both pictures lie {:.2f} mm apart at best, and {:.2f} "
                         "mm is the most to measure by",
                         pins ? "pinholes" : "corners", rms.value, most_reference_residual.value))
      .hint(pins ? "prick a new sheet straight down on something soft, and scan both its sides"
                 : "are both pictures of the same sheet? Pinholes measure better than edges");
}

Diagnostic too_far(FileName file, Mm shift) {
  return Diagnostic(Id::press_scan_shift_too_large, {file},
                    fmt::format("the back lies {:.1f} mm off the front, and {:.0f} mm is the most "
                                "that a printer does",
                                shift.value, farthest_shift.value))
      .hint("are both pictures of the same sheet, printed at one go?");
}

/// What 95 in 100 keep to at all corners, when both sides lay flat.
Mm flat_bound(const AffineFit& fit, Reference reference, Size paper) {
  if (reference == Reference::pinholes) {
    return bound(fit, worst_corners(paper), {pinhole_error, pinhole_worth}).value_or(Mm{99});
  }
  // Both corners of an edge are off by the same, so that a corner errs no less than an edge does.
  return std::max(corner_error, fit.rms) * four_place_quantile;
}

/// The same for sheets as they lie: what is off at the dots is more off at the edge of the paper.
Mm bound_of(Mm flat, const SideSeen& front, const SideSeen& back) {
  const Mm dots = std::max(front.residual, back.residual) * bend_at_edge;
  return Mm{std::hypot(flat.value, dots.value)};
}

Diagnostic unsure(FileName file, Mm within) {
  return Diagnostic(Id::press_not_sure_enough, {file},
                    fmt::format("the back's place is known to ±{:.2f} mm at the corners, and "
                                "±{:.2f} mm is what a correction needs",
                                within.value, widest_bound.value))
      .hint("prick all six rings, straight down, and scan both sides at 300 ppi");
}

}  // namespace

Result<ScanMeasured> measure_pair(const SideSeen& front, const SideSeen& back, game::FlipEdge flip,
                                  FileName front_file, FileName back_file) {
  if (front.side != SheetSide::front) return wrong_side(SheetSide::front, front_file);
  if (back.side != SheetSide::back) return wrong_side(SheetSide::back, back_file);
  ScanMeasured measured;
  measured.paper = front.layout.paper;
  Turned turned = by_pins(front, back, flip);
  if (turned.pairs.size() < 4) {
    turned = {flip, shared_corners(front, back, turned_over(measured.paper, flip))};
    measured.reference = Reference::edges;
  }
  if (turned.pairs.size() < 4 || back.layout.paper != measured.paper) {
    return no_reference(front, back, back_file);
  }
  measured.flip = turned.flip;
  // A hole is left out only when it is far off: with six there is little to tell a bad one by.
  const auto fit = fit_affine(turned.pairs, {Mm{0.5}});
  if (!fit || fit->used < 4) return references_apart(back_file, measured.reference, Mm{1});
  measured.references = fit->used;
  if (fit->rms > most_reference_residual) {
    return references_apart(back_file, measured.reference, fit->rms);
  }
  const Point centre{measured.paper.width / 2, measured.paper.height / 2};
  const Mm shift = length(fit->map(centre) - centre);
  if (shift > farthest_shift) return too_far(back_file, shift);
  const Mm within = bound_of(flat_bound(*fit, measured.reference, measured.paper), front, back);
  if (within > widest_bound) return unsure(back_file, within);
  measured.sheet = {fit->map, within, fit->rms};
  return measured;
}

}  // namespace quoin::press
