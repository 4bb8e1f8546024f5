#include "pack/net_inside.h"

#include <algorithm>

namespace quoin::pack {
namespace {

/// The name of a panel about its middle, along its longer side, in up to three lines; small panels
/// have small names.
Item panel_name(const fold::Panel& panel, const Affine& turned_over) {
  const Rect box = bounds(panel.outline);
  const bool upright = box.size.height > box.size.width * 1.5;
  const Mm along = std::max(box.size.width, box.size.height);
  const Mm across = std::min(box.size.width, box.size.height);
  WordsLook look;
  look.type_size = std::clamp(across * 0.35, Mm{1.5}, Mm{3});
  look.ink = grey_ink;
  look.turn = upright ? Angle::degrees(-90) : Angle{};
  const Size room{(upright ? along : box.size.width) * 0.75,
                  (upright ? across : box.size.height) * 0.75};
  return words_item(panel.name, turned_over(box.centre()), room, look);
}

}  // namespace

LineLook inside_cut() { return {Layer::cut, {0, 0, 0, 1}, Mm{0.25}, {}}; }
LineLook inside_crease() { return {Layer::crease, {0, 0, 0, 1}, Mm{0.2}, {Mm{3}, Mm{1.5}}}; }
LineLook inside_glue() {
  return {Layer::glue, {0.45, 0.45, 0.45, 1}, Mm{0.15}, {Mm{0.8}, Mm{0.8}}};
}

std::vector<Item> inside_lines(const fold::Net& net) {
  const Affine turned_over = Affine::scale(-1, 1);
  std::vector<Item> items;
  for (const fold::Glue& glue : net.glue) {
    const auto rims = grown({Region{glue.area, {}}}, Mm{-0.8});
    items.push_back(line_item(mapped(to_path(rims), turned_over), inside_glue()));
  }
  for (const fold::Hinge& hinge : net.hinges) {
    items.push_back(
        line_item(between(turned_over(hinge.from), turned_over(hinge.to)), inside_crease()));
  }
  Path cut = mapped(to_path(fold::cut_outline(net)), turned_over);
  for (const fold::Slit& slit : net.slits) {
    cut.append(between(turned_over(slit.from), turned_over(slit.to)));
  }
  items.push_back(line_item(std::move(cut), inside_cut()));
  for (const fold::Panel& panel : net.panels) items.push_back(panel_name(panel, turned_over));
  return items;
}

}  // namespace quoin::pack
