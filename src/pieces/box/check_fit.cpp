#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "pieces/box/check_box.h"

namespace quoin::pieces {
namespace {

using fold::PanelRef;

constexpr Mm least_grip{5};        // common practice, no source
constexpr Mm widest_gap{2};        // the same
constexpr double least_seam = 60;  // mm² a seam, the same

const std::string& name(const Box& box, PanelRef panel) {
  return fold::panel(box.model, panel).name;
}

struct AxisFit {
  Mm room, thinnest, thickest;
  const char* way;
};

std::array<AxisFit, 3> axes(const Box& box) {
  const fold::Block &room = box.fit.clear.size, low = thinnest(box.deck), high = thickest(box.deck);
  return {{{room.width, low.width, high.width, "wide"},
           {room.height, low.height, high.height, "high"},
           {room.depth, low.depth, high.depth, "deep"}}};
}

void check_deck_fits(const BoxInspection& inspection) {
  for (const AxisFit& axis : axes(inspection.box)) {
    if (axis.room + epsilon >= axis.thickest) continue;
    Diagnostic problem(Id::box_deck_does_not_fit, inspection.wishes.place("inside"),
                       fmt::format("the box is {} {} inside and the deck up to {}",
                                   length_words(axis.room), axis.way, length_words(axis.thickest)));
    problem.detail("measured between the walls and the flaps that lie inside of them");
    inspection.found.push_back(problem.hint(
        fmt::format("make inside {} larger that way, or leave it out",
                    length_words(Mm{std::ceil((axis.thickest - axis.room).value * 10) / 10}))));
  }
}

void check_rattle(const BoxInspection& inspection) {
  for (const AxisFit& axis : axes(inspection.box)) {
    const Mm loose = axis.room - axis.thinnest;
    if (loose <= inspection.wishes.slack + epsilon) continue;
    Diagnostic problem(Id::box_deck_rattles, inspection.wishes.place("slack"),
                       fmt::format("the box is {} {} inside and the deck may be only {}",
                                   length_words(axis.room), axis.way, length_words(axis.thinnest)));
    problem.detail(fmt::format("that leaves {}; {} is the most that is not said",
                               length_words(loose), length_words(inspection.wishes.slack)));
    if (axis.thickest > axis.thinnest) {
      problem.detail(fmt::format("the deck is {} to {}, as lots of paper differ",
                                 length_words(axis.thinnest), length_words(axis.thickest)));
      problem.hint("measure a pile of your cards and write it under [box]: pile = [60, 19.4]");
    } else {
      problem.hint("give inside less room, or leave it out: the box then follows the deck");
    }
    inspection.found.push_back(std::move(problem));
  }
}

void check_collisions(const BoxInspection& inspection) {
  const Box& box = inspection.box;
  for (const fold::Collision& one : box.fit.collisions) {
    const auto last = box.model.steps.size() - 1;
    const std::size_t step = std::min(last, static_cast<std::size_t>(std::floor(one.progress)));
    Diagnostic problem(Id::box_panels_collide, inspection.wishes.origin,
                       fmt::format("{} and {} go {} into each other", name(box, one.a),
                                   name(box, one.b), length_words(one.depth)));
    problem.detail(fmt::format("in step {} of {}: {}", step + 1, box.model.steps.size(),
                               box.model.steps[step].words));
    inspection.found.push_back(problem.hint(
        "make the flap among them shorter by that much, or leave its length to Quoin"));
  }
}

void check_closing(const BoxInspection& inspection) {
  const Box& box = inspection.box;
  for (const fold::Grip& grip : box.fit.grips) {
    if (grip.depth >= least_grip) continue;
    Diagnostic problem(
        Id::box_cannot_close, inspection.wishes.place("tuck"),
        fmt::format("{} reaches {} behind {}; it needs {} to hold", name(box, grip.flap),
                    length_words(grip.depth), name(box, grip.behind), length_words(least_grip)));
    inspection.found.push_back(problem.hint("write tuck = 14, or leave it out"));
  }
  for (const fold::Gap& gap : box.fit.gaps) {
    if (gap.width <= widest_gap) continue;
    Diagnostic problem(Id::box_cannot_close, inspection.wishes.origin,
                       fmt::format("{} stays open between {} and {}; {} is the most that holds",
                                   length_words(gap.width), name(box, gap.a), name(box, gap.b),
                                   length_words(widest_gap)));
    inspection.found.push_back(
        problem.hint("write tuck-play = 0.3 and fit = 0.3, or leave them out"));
  }
}

void check_seams(const BoxInspection& inspection) {
  const Box& box = inspection.box;
  for (const fold::Contact& seam : box.fit.seams) {
    if (seam.area >= least_seam) continue;
    Diagnostic problem(Id::box_glue_too_small, inspection.wishes.place("glue-flap"),
                       fmt::format("{} has {:.0f} mm² to be glued on; {:.0f} mm² hold well",
                                   name(box, seam.flap), seam.area, least_seam));
    inspection.found.push_back(problem.hint("use a strong glue and press it until it is dry"));
  }
}

}  // namespace

std::string length_words(Mm length) {
  const double shown = length.value;
  return std::abs(shown) < 1 ? fmt::format("{:.2f} mm", shown) : fmt::format("{:.1f} mm", shown);
}

void check_fit(const BoxInspection& inspection) {
  check_collisions(inspection);
  check_deck_fits(inspection);
  check_rattle(inspection);
  check_closing(inspection);
  check_seams(inspection);
}

}  // namespace quoin::pieces
