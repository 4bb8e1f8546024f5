#include "pack/box_solids.h"

#include <algorithm>
#include <cmath>

#include "fold/crease.h"
#include "fold/mesh.h"
#include "pieces/box/deck_block.h"

namespace quoin::pack {
namespace {

using fold::Vec3;
using gltf::Space;

Space space(Vec3 v) { return {v.x, v.y, v.z}; }

const fold::Hinge* hinge_of(const fold::Net& net, int panel) {
  for (const fold::Hinge& hinge : net.hinges) {
    if (hinge.child == panel) return &hinge;
  }
  return nullptr;
}

/// The place of the net that is a panel's origin.
Vec3 origin_of(const fold::Net& net, int panel) {
  const fold::Hinge* hinge = hinge_of(net, panel);
  if (hinge == nullptr) return {};
  return fold::lifted(hinge->from + (hinge->to - hinge->from) * 0.5);
}

/// The panel's corners with their places in a texture.
struct Corners {
  const NetSolids& solids;
  Vec3 origin;

  [[nodiscard]] gltf::Vertex vertex(Vec3 at, Vec3 normal, Point net, fold::Side side) const {
    const Rect& to = solids.texture;
    double u = (net.x - to.left()) / to.size.width;
    if (side == fold::Side::inside) u = 1 - u;
    return {space(at - origin), space(normal), u, (net.y - to.top()) / to.size.height};
  }
};

gltf::Mesh face_mesh(const Corners& corners, const fold::Mesh& mesh,
                     const std::vector<std::uint32_t>& faces, fold::Side side, int material) {
  gltf::Mesh made;
  made.material = material;
  std::vector<int> numbers(mesh.corners.size(), -1);
  for (const std::uint32_t corner : faces) {
    if (numbers[corner] < 0) {
      const fold::Corner& from = mesh.corners[corner];
      numbers[corner] = static_cast<int>(made.vertices.size());
      made.vertices.push_back(corners.vertex(from.at, from.normal, from.net, side));
    }
    made.triangles.push_back(static_cast<std::uint32_t>(numbers[corner]));
  }
  return made;
}

/// The outside of a fold: part of a cylinder about the crease, of half the board's thickness, over
/// as much as the fold ever opens. What of it is not needed lies inside the board.
std::optional<gltf::Mesh> bead(const Corners& corners, const fold::Hinge& hinge) {
  double widest = 0;
  for (const fold::Turn& turn : hinge.turns) widest = std::max(widest, turn.angle.radians);
  if (widest < 1e-6) return std::nullopt;
  constexpr int strips = 6;
  const fold::Net& net = corners.solids.net;
  const fold::Crease crease = fold::crease_of(hinge, net.panels.at(hinge.child));
  const double half = net.thickness.value / 2;
  const Vec outward{Mm{crease.outward.x}, Mm{crease.outward.y}};
  gltf::Mesh mesh;
  mesh.material = corners.solids.printed;
  for (int k = 0; k <= strips; ++k) {
    const double share = static_cast<double>(k) / strips, angle = widest * share;
    const Vec3 normal = Vec3{0, 0, -std::cos(angle)} + crease.outward * std::sin(angle);
    for (const Point end : {hinge.from, hinge.to}) {
      mesh.vertices.push_back(corners.vertex(fold::lifted(end) + normal * half, normal,
                                             end + outward * (half * (2 * share - 1)),
                                             fold::Side::printed));
    }
  }
  // Outwards: along the crease times round it, in the order that gives a positive product.
  const Vec3 along = fold::lifted(hinge.to) - fold::lifted(hinge.from);
  const bool turns = dot(cross(along, crease.outward), Vec3{0, 0, -1}) < 0;
  for (std::uint32_t k = 0; k < strips; ++k) {
    const std::uint32_t a = 2 * k, b = a + 1, c = a + 3, d = a + 2;
    const std::array<std::uint32_t, 6> quad =
        turns ? std::array{a, d, c, a, c, b} : std::array{a, b, c, a, c, d};
    mesh.triangles.insert(mesh.triangles.end(), quad.begin(), quad.end());
  }
  return mesh;
}

std::vector<gltf::Mesh> panel_meshes(const NetSolids& solids, int panel) {
  const Corners corners{solids, origin_of(solids.net, panel)};
  const fold::Mesh mesh = fold::mesh(solids.net.panels.at(panel), solids.net.thickness);
  std::vector<gltf::Mesh> made{
      face_mesh(corners, mesh, mesh.printed, fold::Side::printed, solids.printed),
      face_mesh(corners, mesh, mesh.inside, fold::Side::inside, solids.inside),
      face_mesh(corners, mesh, mesh.edge, fold::Side::edge, solids.edge)};
  for (const fold::Hinge& hinge : solids.net.hinges) {
    if (hinge.parent != panel) continue;
    if (auto closing = bead(corners, hinge)) made.push_back(std::move(*closing));
  }
  return made;
}

/// The angle of a closed box's crease.
Angle closed_angle(const fold::Hinge& hinge) {
  return hinge.turns.empty() ? Angle{} : hinge.turns.back().angle;
}

void add_panels(gltf::Model& model, const NetSolids& solids, int carrier, std::vector<int>& to) {
  const fold::Net& net = solids.net;
  for (int i = 0; i < std::ssize(net.panels); ++i) {
    const fold::Hinge* hinge = hinge_of(net, i);
    gltf::Part part;
    part.name = net.panels[i].name;
    part.parent = hinge == nullptr ? carrier : to.at(hinge->parent);
    part.placing = panel_placing(net, i, hinge == nullptr ? Angle{} : closed_angle(*hinge));
    part.meshes = panel_meshes(solids, i);
    to.push_back(static_cast<int>(model.parts.size()));
    model.parts.push_back(std::move(part));
  }
}

/// Turns y up and puts the closed box on the ground, the middle of its foot at the origin.
gltf::Placing upright(const fold::Model& model) {
  Vec3 least{1e9, 1e9, 1e9}, most{-1e9, -1e9, -1e9};
  const auto places = fold::pose(model, static_cast<double>(model.steps.size()));
  for (std::size_t i = 0; i < places.size(); ++i) {
    const fold::Net& net = model.parts[i].net;
    for (std::size_t k = 0; k < places[i].size(); ++k) {
      for (const Point p : net.panels[k].outline) {
        for (const double side : {-0.5, 0.5}) {
          const Vec3 at = places[i][k](fold::lifted(p, side * net.thickness.value));
          least = {std::min(least.x, at.x), std::min(least.y, at.y), std::min(least.z, at.z)};
          most = {std::max(most.x, at.x), std::max(most.y, at.y), std::max(most.z, at.z)};
        }
      }
    }
  }
  return {{1, 0, 0, 0}, {-(least.x + most.x) / 2, most.y, (least.z + most.z) / 2}};
}

/// The net that the deck travels in: a tray that comes to its sleeve; else -1.
int deck_carrier(const fold::Model& model) {
  for (int i = 1; i < std::ssize(model.parts); ++i) {
    if (model.parts[i].away != Vec3{}) return i;
  }
  return -1;
}

gltf::Mesh deck_mesh(const pieces::Box& box, int material) {
  const pieces::StagedDeck deck{
      {box.deck.face.width, box.deck.face.height, box.deck.height.typical}, {}};
  constexpr Mm corner{3};
  gltf::Mesh mesh;
  mesh.material = material;
  for (const pieces::BlockFace& face : pieces::deck_block(deck, corner, box.deck.card.typical)) {
    const std::vector<Vec3>& corners = face.surface.parts.front();
    const auto first = static_cast<std::uint32_t>(mesh.vertices.size());
    for (const Vec3 at : corners) {
      mesh.vertices.push_back({space(at), space(face.surface.normal), 0, 0});
    }
    const Vec3 turn = cross(corners[1] - corners[0], corners[2] - corners[0]);
    const bool outwards = dot(turn, face.surface.normal) > 0;
    for (std::uint32_t k = 1; k + 1 < corners.size(); ++k) {
      const std::uint32_t b = first + k, c = b + 1;
      for (const std::uint32_t number : {first, outwards ? b : c, outwards ? c : b}) {
        mesh.triangles.push_back(number);
      }
    }
  }
  return mesh;
}

}  // namespace

Rect net_rect(const fold::Net& net) {
  std::optional<Rect> all;
  for (const fold::Panel& panel : net.panels) {
    const Rect one = bounds(panel.outline);
    all = all ? covering(*all, one) : one;
  }
  return all.value_or(Rect{});
}

gltf::Placing placing_of(const fold::Rigid& place) {
  return {gltf::turn_of(place.turn), space(place.move)};
}

gltf::Placing panel_placing(const fold::Net& net, int panel, Angle angle) {
  const fold::Hinge* hinge = hinge_of(net, panel);
  if (hinge == nullptr) return {};
  const fold::Crease crease = fold::crease_of(*hinge, net.panels.at(panel));
  fold::Rigid place = fold::turn_about({}, crease.axis, angle);
  place.move = origin_of(net, panel) - origin_of(net, hinge->parent);
  return placing_of(place);
}

DeckWay deck_way(const pieces::Box& box) {
  const Vec3 size{box.deck.face.width.value, box.deck.face.height.value,
                  box.deck.height.typical.value};
  const fold::Block& room = box.fit.clear.size;
  const Vec3 home{box.fit.clear.at.x + (room.width.value - size.x) / 2,
                  box.fit.clear.at.y + room.height.value - size.y,
                  box.fit.clear.at.z + (room.depth.value - size.z) / 2};
  // A carton is filled from its end, a tray or a base from its open side.
  const bool from_the_end = box.model.parts.size() == 1;
  const Vec3 away = from_the_end ? Vec3{0, -1.2 * size.y, 0} : Vec3{0, 0, -(3 * size.z + 30)};
  const int carrier = deck_carrier(box.model);
  const fold::Rigid frame = carrier < 0 ? fold::Rigid{} : box.model.parts[carrier].home;
  fold::Rigid turned;  // the carrier's home undone
  for (int i = 0; i < 3; ++i) {
    for (int k = 0; k < 3; ++k) turned.turn[3 * i + k] = frame.turn[3 * k + i];
  }
  turned.move = frame.back(home);
  fold::Rigid start = turned;
  start.move = frame.back(home + away);
  return {placing_of(turned), placing_of(start)};
}

BoxParts add_parts(gltf::Model& model, const pieces::Box& box, const std::vector<NetSolids>& solids,
                   int deck_material) {
  BoxParts parts;
  const int root = static_cast<int>(model.parts.size());
  model.parts.push_back({"box", {}, upright(box.model), {}});
  for (std::size_t i = 0; i < solids.size(); ++i) {
    parts.nets.push_back(static_cast<int>(model.parts.size()));
    const fold::Part& part = box.model.parts[i];
    model.parts.push_back({part.net.name + " net", root, placing_of(part.home), {}});
    add_panels(model, solids[i], parts.nets.back(), parts.panels.emplace_back());
  }
  const int carrier = deck_carrier(box.model);
  parts.deck = static_cast<int>(model.parts.size());
  model.parts.push_back({"deck",
                         carrier < 0 ? root : parts.nets.at(carrier),
                         deck_way(box).home,
                         {deck_mesh(box, deck_material)}});
  return parts;
}

}  // namespace quoin::pack
