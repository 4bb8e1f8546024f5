#include <algorithm>

#include "pieces/box/box_view.h"
#include "pieces/box/light.h"

namespace quoin::pieces {
namespace {

Item line_on_net(Point from, Point to, Colour ink, Mm width) {
  ShapeItem shape;
  shape.path.move_to(from).line_to(to);
  shape.stroke.paint = ink;
  shape.stroke.width = width;
  Item item;
  item.what = std::move(shape);
  return item;
}

/// A creased line catches the light on one side: a dark line and a light one beside it.
void add_crease_lines(const fold::Net& net, std::vector<Item>& items) {
  constexpr Mm width{0.35};
  for (const fold::Hinge& hinge : net.hinges) {
    const Vec along = hinge.to - hinge.from;
    const Vec beside = Vec{-along.y, along.x} * (0.175 / length(along).value);
    items.push_back(
        line_on_net(hinge.from + beside, hinge.to + beside, thinned(white, 0.35), width));
    items.push_back(line_on_net(hinge.from + beside * -1, hinge.to + beside * -1,
                                thinned(shade_ink, 0.22), width));
  }
}

void add_soft_rim(const std::vector<Region>& outline, std::vector<Item>& items) {
  constexpr int layers = 8;
  constexpr double soft = 2.4, darkest = 0.20;
  for (int k = 0; k < layers; ++k) {
    const double way = 1 - (k + 0.5) / layers;
    Item item =
        filled(to_path(grown(outline, Mm{soft * way * way})), thinned(shade_ink, darkest / layers));
    item.map = Affine::move({Mm{0.3}, Mm{0.7}});
    items.push_back(std::move(item));
  }
}

/// One net with its top left at the origin, and its size.
struct FlatNet {
  Item item;
  Size size;
};

FlatNet flat_net(const fold::Net& net, const NetArt* art) {
  const std::vector<Region> outline = fold::cut_outline(net);
  const Path path = to_path(outline);
  const Rect round = bounds(path);
  GroupItem face;
  face.items.push_back(filled(path, board_outside));
  if (art != nullptr) {
    face.items.insert(face.items.end(), art->printed.items.begin(), art->printed.items.end());
  }
  add_crease_lines(net, face.items);
  for (const fold::Slit& slit : net.slits) {
    face.items.push_back(line_on_net(slit.from, slit.to, thinned(shade_ink, 0.55), Mm{0.3}));
  }
  Item clipped;
  clipped.clip = path;
  clipped.what = std::move(face);
  ShapeItem contour;
  contour.path = path;
  contour.stroke.paint = thinned(shade_ink, 0.5);
  contour.stroke.width = Mm{0.2};
  Item line;
  line.what = std::move(contour);
  GroupItem all;
  add_soft_rim(outline, all.items);
  all.items.push_back(std::move(clipped));
  all.items.push_back(std::move(line));
  Item item;
  item.map = Affine::move(Point{} - round.at);
  item.what = std::move(all);
  return {std::move(item), round.size};
}

}  // namespace

BoxPicture flat_nets(const BoxLook& look) {
  constexpr Mm between = 12_mm, rim = 5_mm;
  std::vector<FlatNet> nets;
  Mm highest;
  const std::vector<fold::Part>& parts = look.box.model.parts;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    nets.push_back(flat_net(parts[i].net, i < look.art.size() ? &look.art[i] : nullptr));
    highest = std::max(highest, nets.back().size.height);
  }
  BoxPicture picture;
  Mm at;
  for (FlatNet& net : nets) {
    net.item.map = then(net.item.map, Affine::move({at, (highest - net.size.height) / 2}));
    picture.scene.items.push_back(std::move(net.item));
    at += net.size.width + between;
  }
  picture.bounds = grown(Rect{{}, {at - between, highest}}, rim);
  return picture;
}

}  // namespace quoin::pieces
