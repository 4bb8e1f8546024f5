#include "making/hand_work.h"

#include <fmt/format.h>

#include "sheets/wording.h"

namespace quoin::making {
namespace {

std::string metres(Mm length) { return fmt::format("{:.1f} m", length.value / 1000); }

/// "the box", "each of 5 boxes": whose net it is.
std::string of_net(const NetWork& net) {
  if (net.boxes == 1) return "the " + net.name;
  return fmt::format("each of {} nets of the {}", net.boxes, net.name);
}

HandStep punching(const Corners& corners) {
  return {
      HandStep::Kind::punch, "Round the corners",
      fmt::format("{}, four of each card, with a punch of {}. Push the card in until both "
                  "edges touch the stops, and go round it always the same way.",
                  sheets::counted(corners.punches, "corner"), sheets::millimetres(corners.radius)),
      corners.punches};
}

HandStep creasing(const NetWork& net, int index) {
  return {
      HandStep::Kind::crease, fmt::format("Crease the {}", net.name),
      fmt::format("{} on {}, {} in all, pressed with something blunt along a rule while the "
                  "net still hangs in its sheet.",
                  sheets::counted(net.creases, "crease"), of_net(net), metres(net.crease_length)),
      net.creases * net.boxes, index};
}

HandStep cutting_out(const NetWork& net, int index) {
  std::string words = fmt::format("{} along a rule", sheets::counted(net.cuts, "straight cut"));
  if (net.curves > 0) words += fmt::format(" and {}", sheets::counted(net.curves, "curve"));
  return {HandStep::Kind::cut, fmt::format("Cut out the {}", net.name),
          fmt::format("{} round {}, {} in all. Several light strokes rather than one heavy one.",
                      words, of_net(net), metres(net.cut_length)),
          (net.cuts + net.curves) * net.boxes, index};
}

HandStep gluing(const NetWork& net, int index) {
  return {HandStep::Kind::glue, fmt::format("Glue the {}", net.name),
          fmt::format("{} on {}: a thin film, held until it grips.",
                      sheets::counted(net.seams, "seam"), of_net(net)),
          net.seams * net.boxes, index};
}

}  // namespace

std::vector<HandStep> hand_steps(const Cutting& cutting) {
  std::vector<HandStep> steps;
  if (cutting.corners.punches > 0) steps.push_back(punching(cutting.corners));
  for (std::size_t i = 0; i < cutting.nets.size(); ++i) {
    const NetWork& net = cutting.nets[i];
    const int index = static_cast<int>(i);
    if (net.creases > 0) steps.push_back(creasing(net, index));
    if (net.cuts + net.curves > 0) steps.push_back(cutting_out(net, index));
    if (net.seams > 0) steps.push_back(gluing(net, index));
  }
  return steps;
}

std::string_view to_string(HandStep::Kind kind) {
  switch (kind) {
    case HandStep::Kind::crease:
      return "crease";
    case HandStep::Kind::cut:
      return "cut";
    case HandStep::Kind::glue:
      return "glue";
    case HandStep::Kind::punch:
      break;
  }
  return "punch";
}

std::vector<std::string> blade_cautions() {
  return {
      "With a trimmer or guillotine: the guard stays on, one person works at it, and the blade "
      "is latched down whenever you look away.",
      "With a knife: a new blade, a metal rule, the fingers of the other hand well back from "
      "its edge. Cut away from your body, in several light strokes rather than one heavy one.",
      "Cap the knife whenever you put it down. Old blades go into a tin, not into the bin.",
      "Children keep their distance, or cut with a grown-up beside them. What the maker of "
      "your tool says, and the rules where you live, come first."};
}

std::vector<std::string> glue_cautions() {
  return {
      "Glue with solvent, and spray glue, want open windows and no flame or spark near. Read "
      "what stands on the tube or can."};
}

}  // namespace quoin::making
