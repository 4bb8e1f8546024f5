#pragma once
#include <vector>

#include "fold/fold.h"
#include "formats/gltf/model.h"
#include "pieces/box/box.h"

namespace quoin::pack {

/// What the solids of a net are made of: numbers of materials, and the rectangle of the net that
/// the texture of its printed side shows; that of the inside shows the same, turned over.
struct NetSolids {
  const fold::Net& net;
  Rect texture;
  int printed = 0, inside = 0, edge = 0;
};

/// Round all panels.
[[nodiscard]] Rect net_rect(const fold::Net& net);

/// The numbers of a box's parts in its model.
struct BoxParts {
  std::vector<int> nets;                 ///< carries the panels of each net
  std::vector<std::vector<int>> panels;  ///< of each net
  int deck = 0;
};

/// Where a panel lies in what it hangs on: its origin is the middle of its crease, turned about it
/// by `angle`; a root's is that of its net.
[[nodiscard]] gltf::Placing panel_placing(const fold::Net& net, int panel, Angle angle);

/// Where a net lies.
[[nodiscard]] gltf::Placing placing_of(const fold::Rigid& place);

/// The deck at rest, in what it hangs on, and from where it is put in.
struct DeckWay {
  gltf::Placing home, from;
};
[[nodiscard]] DeckWay deck_way(const pieces::Box& box);

/// Adds the closed box to a model: a root that turns it upright, with y up and the ground at 0, a
/// part for each net, its panels with their meshes, and the deck of that material.
BoxParts add_parts(gltf::Model& model, const pieces::Box& box, const std::vector<NetSolids>& solids,
                   int deck_material);

}  // namespace quoin::pack
