#include <algorithm>
#include <numeric>

#include "pack/box_files.h"
#include "pack/net_lines.h"

namespace quoin::pack {
namespace {

constexpr Mm usual_bleed{3};

Scene net_scene(const fold::Net& net) {
  Scene scene;
  for (const fold::Glue& glue : net.glue) {
    scene.items.push_back(
        line_item(Path::polygon(glue.area), {Layer::glue, glue_ink, Mm{0.2}, {1_mm, 1_mm}}));
  }
  for (const fold::Hinge& hinge : net.hinges) {
    scene.items.push_back(line_item(between(hinge.from, hinge.to),
                                    {Layer::crease, crease_ink, Mm{0.2}, {3_mm, 1.5_mm}}));
  }
  const LineLook cut{Layer::cut, cut_ink, Mm{0.2}, {}};
  scene.items.push_back(line_item(to_path(fold::cut_outline(net)), cut));
  for (const fold::Slit& slit : net.slits) {
    scene.items.push_back(line_item(between(slit.from, slit.to), cut));
  }
  return scene;
}

Rect net_bounds(const fold::Net& net) {
  std::optional<Rect> all;
  for (const fold::Panel& panel : net.panels) {
    const Rect one = bounds(panel.outline);
    all = all ? covering(*all, one) : one;
  }
  return all.value_or(Rect{});
}

/// "sleeve-front" reads "sleeve, front half"; the parts of a kind without halves as they are named.
std::string title_of(const std::string& name) {
  for (const std::string half : {"front", "back"}) {
    if (name == half) return half + " half";
    if (name.ends_with("-" + half)) {
      return name.substr(0, name.size() - half.size() - 1) + ", " + half + " half";
    }
  }
  return name;
}

}  // namespace

std::vector<BoxNet> box_nets(const pieces::Box& box, const std::string& title) {
  std::vector<BoxNet> nets;
  for (const fold::Part& part : box.model.parts) {
    const std::string name = box.model.parts.size() == 1 ? "box" : "box-" + part.net.name;
    const Rect bounds = net_bounds(part.net);
    nets.push_back({name,
                    title_of(part.net.name),
                    &part.net,
                    bounds,
                    {title + ", " + name, bounds, net_scene(part.net)}});
  }
  return nets;
}

Mm bleed_of(const BoxArt& art, std::size_t net) {
  return net < art.size() && art[net].bleed > Mm{} ? art[net].bleed : usual_bleed;
}

int BoxSheets::count() const {
  return std::accumulate(sheets.begin(), sheets.end(), 0,
                         [](int sum, const NetSheet& sheet) { return sum + sheet.times; });
}

std::vector<Symbol> box_symbols(const pieces::Box& box, const BoxArt& art) {
  std::vector<Symbol> symbols;
  if (art.empty()) return symbols;
  const std::vector<BoxNet> nets = box_nets(box, "");
  for (std::size_t i = 0; i < nets.size() && i < art.size(); ++i) {
    const Rect front = grown(nets[i].bounds, bleed_of(art, i));
    const Rect inside{{-front.right(), front.top()}, front.size};
    symbols.push_back({front, [&art, i] { return art[i].printed; }});
    symbols.push_back({inside, [&art, i] { return art[i].inside; }});
  }
  return symbols;
}

}  // namespace quoin::pack
