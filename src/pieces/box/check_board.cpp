#include <fmt/format.h>

#include <algorithm>

#include "pieces/box/check_box.h"

namespace quoin::pieces {
namespace {

constexpr Mm thinnest_board{0.25};    // common practice, no source
constexpr Mm narrowest_panel{5};      // the same
constexpr double calipers_apart = 6;  // the same
constexpr double calipers_bend = 10;  // the same

/// Two creases of one panel that run alongside each other, and what lies between.
struct Strip {
  const std::string* panel = nullptr;
  Mm width{1e9};
};

Mm between_creases(const fold::Hinge& a, const fold::Hinge& b) {
  const Vec along = a.to - a.from, other = b.to - b.from;
  const double cross = along.x / Mm{1} * (other.y / Mm{1}) - along.y / Mm{1} * (other.x / Mm{1});
  if (std::abs(cross) > 1e-6) return Mm{1e9};
  const Vec to = b.from - a.from;
  const double area = to.x / Mm{1} * (along.y / Mm{1}) - to.y / Mm{1} * (along.x / Mm{1});
  return Mm{std::abs(area) / length(along).value};
}

Strip narrowest_strip(const Box& box) {
  Strip narrowest;
  for (const fold::Part& part : box.model.parts) {
    const std::vector<fold::Hinge>& hinges = part.net.hinges;
    for (const fold::Hinge& a : hinges) {
      for (const fold::Hinge& b : hinges) {
        const bool of_one_panel = &a != &b && (b.parent == a.child || b.parent == a.parent);
        const Mm width = of_one_panel ? between_creases(a, b) : Mm{1e9};
        if (width < epsilon || width >= narrowest.width) continue;
        narrowest = {&part.net.panels[b.parent].name, width};
      }
    }
  }
  return narrowest;
}

void check_thin(const BoxInspection& inspection) {
  const Mm board = inspection.box.plan.board;
  if (board >= thinnest_board) return;
  Diagnostic problem(
      Id::box_board_too_thin,
      inspection.wishes.place(inspection.wishes.board.caliper ? "caliper" : "grammage"),
      fmt::format("the board is {} thick; a box wants {} or more", length_words(board),
                  length_words(thinnest_board)));
  inspection.found.push_back(
      problem.hint("take board of 0.30 to 0.45 mm, or glue two sheets together"));
}

void check_strips(const BoxInspection& inspection) {
  const Strip strip = narrowest_strip(inspection.box);
  if (!strip.panel) return;
  const Mm board = inspection.box.plan.board, stiff = board * calipers_apart;
  if (strip.width < stiff) {
    Diagnostic problem(
        Id::box_board_too_stiff, inspection.wishes.origin,
        fmt::format("{} is {} from crease to crease; board of {} wants {}", *strip.panel,
                    length_words(strip.width), length_words(board), length_words(stiff)));
    inspection.found.push_back(problem.hint(
        fmt::format("take board of {:.2f} mm or less, and score both creases before folding",
                    strip.width.value / calipers_apart)));
  }
  if (strip.width >= narrowest_panel) return;
  Diagnostic problem(
      Id::box_panel_too_small, inspection.wishes.origin,
      fmt::format("{} is {} from crease to crease; fingers fold {} or more", *strip.panel,
                  length_words(strip.width), length_words(narrowest_panel)));
  inspection.found.push_back(problem.hint("fold it over a metal rule"));
}

void check_bend(const BoxInspection& inspection) {
  const Box& box = inspection.box;
  if (box.model.tucks.empty()) return;
  const Mm radius = box.plan.inside.depth - box.plan.tuck_play,
           least = box.plan.board * calipers_bend;
  if (radius >= least) return;
  Diagnostic problem(
      Id::box_tuck_bends_sharply, inspection.wishes.origin,
      fmt::format("the tuck flap is bent to a radius of {} as it goes in; board of {} "
                  "wants {}",
                  length_words(radius), length_words(box.plan.board), length_words(least)));
  inspection.found.push_back(
      problem.hint("roll the flap over a pencil before closing, or write kind = \"sleeve\""));
}

void note_making(const BoxInspection& inspection) {
  const Mm board = inspection.box.plan.board;
  Diagnostic grain(Id::box_grain, inspection.wishes.origin,
                   "the grain of the board should run left and right on the net");
  grain.detail("it then runs round the box, and the walls bulge least");
  inspection.found.push_back(
      grain.hint("bend a sheet both ways: it bends more easily round the grain"));
  Diagnostic crease(
      Id::box_crease_width, inspection.wishes.origin,
      fmt::format(
          "a die for this board of {} has creasing channels {:.2f} mm wide and {:.2f} mm deep",
          length_words(board), crease_width(board).value, board.value));
  inspection.found.push_back(crease.detail("1.5 times the board and a rule of 0.71 mm"));
}

}  // namespace

Mm crease_width(Mm caliper) {
  constexpr Mm rule{0.71};
  return caliper * 1.5 + rule;
}

void check_board(const BoxInspection& inspection) {
  check_thin(inspection);
  check_strips(inspection);
  check_bend(inspection);
  note_making(inspection);
}

}  // namespace quoin::pieces
