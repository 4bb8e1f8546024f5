#include "pieces/box/art_place.h"

#include <fmt/format.h>

#include <algorithm>

#include "pieces/card/check_parts.h"

namespace quoin::pieces {
namespace {

/// A panel as the maker wrote it.
struct PanelWord {
  std::string name;
  Origin origin;
};

std::vector<PanelWord> panels_asked(const game::Element& element) {
  std::vector<PanelWord> asked;
  for (const char* key : {"panel", "panels"}) {
    const game::Node* there = game::find(element.properties, key);
    if (there == nullptr) continue;
    if (there->text()) asked.push_back({*there->text(), there->origin});
    if (there->list() == nullptr) continue;
    for (const game::Node& one : *there->list()) {
      if (one.text()) asked.push_back({*one.text(), one.origin});
    }
  }
  return asked;
}

PrintSide side_asked(const game::Element& element) {
  const game::Node* there = game::find(element.properties, "side");
  const bool inside = there != nullptr && there->text() && *there->text() == "inside";
  return inside ? PrintSide::inside : PrintSide::outside;
}

std::vector<std::string> panels_that_are(const Box& box, fold::Seen seen) {
  std::vector<std::string> names;
  for (const fold::Part& part : box.model.parts) {
    for (const fold::Panel& panel : part.net.panels) {
      if (panel.seen == seen) names.push_back(panel.name);
    }
  }
  return names;
}

/// The names of all panels, those that show first.
void tell_panels(const Box& box, Diagnostic& problem) {
  problem.detail("the panels of this box are " + listed(panels_that_are(box, fold::Seen::outside)));
  const std::vector<std::string> hidden = panels_that_are(box, fold::Seen::hidden);
  if (!hidden.empty()) problem.detail("those that are hidden when it is closed: " + listed(hidden));
}

/// The panel that is meant: "front" is short for "sleeve front"; else the nearest in spelling.
std::optional<std::string> panel_meant(const Box& box, const std::string& asked) {
  const std::vector<std::string> names = fold::panel_names(box.model);
  const auto longer = std::find_if(names.begin(), names.end(), [&](const std::string& name) {
    return !asked.empty() && name.ends_with(" " + asked);
  });
  return longer != names.end() ? std::optional(*longer) : game::nearest(asked, names);
}

void report_no_panel(const game::Element& element, const Box& box, Diagnostics& found) {
  Diagnostic problem(Id::box_no_panel, element.origin,
                     fmt::format("the {} \"{}\" does not say on which panel of the box it is drawn",
                                 element.kind, element.id));
  problem.on("box", element.id);
  tell_panels(box, problem);
  found.push_back(problem.hint(fmt::format("write panel = \"{}\", or the name of another panel",
                                           panels_that_are(box, fold::Seen::outside).front())));
}

void report_unknown_panel(const game::Element& element, const PanelWord& asked, const Box& box,
                          Diagnostics& found) {
  Diagnostic problem(Id::box_unknown_panel, asked.origin,
                     fmt::format("a {} has no panel \"{}\"", box.kind->title, asked.name));
  problem.on("box", element.id);
  tell_panels(box, problem);
  const std::optional<std::string> meant = panel_meant(box, asked.name);
  found.push_back(problem.hint(meant ? fmt::format("did you mean \"{}\"?", *meant)
                                     : "write one of these names"));
}

void report_break(const game::Element& element, const PanelWord& asked, const PrintedNet& net,
                  const PanelBreak& gap, Diagnostics& found) {
  const auto name = [&](int panel) { return net.panels[static_cast<std::size_t>(panel)].name; };
  Diagnostic problem(
      Id::box_panels_apart, asked.origin,
      gap.first == gap.second
          ? fmt::format("{} is named twice in a row", name(gap.first))
          : fmt::format("{} does not follow {} on the box", name(gap.second), name(gap.first)));
  problem.on("box", element.id)
      .detail("panels are named from left to right, or from top to bottom, as they are read");
  std::vector<std::string> followers;
  for (const int panel : gap.followers) followers.push_back(name(panel));
  found.push_back(problem.hint(followers.empty() ? fmt::format("end with {}", name(gap.first))
                                                 : fmt::format("after {} comes {}", name(gap.first),
                                                               fmt::join(followers, " or "))));
}

void report_other_part(const game::Element& element, const PanelWord& first, const PanelWord& other,
                       Diagnostics& found) {
  Diagnostic problem(
      Id::box_panels_apart, other.origin,
      fmt::format("{} and {} are not of one piece of board", first.name, other.name));
  found.push_back(problem.on("box", element.id).hint("give each piece an element of its own"));
}

std::string words_for(const PrintedNet& net, const std::vector<int>& panels) {
  std::vector<std::string> names;
  for (const int panel : panels) {
    names.push_back(net.panels[static_cast<std::size_t>(panel)].name);
  }
  return (net.side == PrintSide::inside ? "inside of " : "") + listed(names);
}

/// The panels that are asked for; nothing, and a finding, when one is none of the box's or lies on
/// another piece of board than the first.
std::optional<std::vector<fold::PanelRef>> panels_on(const Box& box, const game::Element& element,
                                                     const std::vector<PanelWord>& asked,
                                                     Diagnostics& found) {
  std::vector<fold::PanelRef> panels;
  for (const PanelWord& one : asked) {
    const std::optional<fold::PanelRef> panel = fold::find_panel(box.model, one.name);
    if (!panel) {
      report_unknown_panel(element, one, box, found);
      return std::nullopt;
    }
    panels.push_back(*panel);
    if (panel->part != panels.front().part) {
      report_other_part(element, asked.front(), one, found);
      return std::nullopt;
    }
  }
  return panels;
}

}  // namespace

std::optional<ArtPlace> ArtPlaces::place(const game::Element& element, Diagnostics& found) {
  const std::vector<PanelWord> asked = panels_asked(element);
  if (asked.empty()) {
    report_no_panel(element, box_, found);
    return std::nullopt;
  }
  const auto refs = panels_on(box_, element, asked, found);
  if (!refs) return std::nullopt;
  std::vector<int> panels;
  for (const fold::PanelRef& ref : *refs) panels.push_back(ref.panel);
  ArtPlace place{refs->front().part, side_asked(element), {}, {}};
  const PrintedNet net = printed_net(box_.model, place.part, place.side);
  place.words = words_for(net, panels);
  const Key key{place.part, place.side, panels};
  const auto known = runs_.find(key);
  if (known != runs_.end()) {
    place.run = known->second;
    return place;
  }
  std::optional<PanelBreak> gap;
  std::optional<PanelRun> run = lay_run(net, panels, bleed_, gap);
  if (!run) {
    const auto at = std::find(panels.begin() + 1, panels.end(), gap->second) - panels.begin();
    report_break(element, asked[static_cast<std::size_t>(at)], net, *gap, found);
    return std::nullopt;
  }
  place.run = runs_.emplace(key, std::move(*run)).first->second;
  return place;
}

}  // namespace quoin::pieces
