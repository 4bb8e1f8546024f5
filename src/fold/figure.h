#pragma once
#include <vector>

#include "fold/crease.h"
#include "fold/prism.h"

namespace quoin::fold {

/// A plate that the collision check moves: a panel, or a strip of a panel while it is bowed.
struct Plate {
  PanelRef panel;
  int strip = -1;   ///< -1: the whole panel
  int parent = -1;  ///< plate number; -1 for the root of a part
  Crease crease;    ///< on the net; unused for a root
  Solid solid;
  /// Without what lies within one thickness of its own crease; and of its parent the same.
  Solid off_crease, parent_off_crease;
  /// True when it lies on its side of the crease and its parent on the other.
  enum class Sides { own, crossed } sides = Sides::own;
  /// A strip is there only between these; the whole of a bowed panel only outside of them.
  double bowed_from = 0, bowed_to = 0;
};

/// Whether the plate counts all through a stretch of the folding.
[[nodiscard]] bool is_there(const Plate& plate, double from, double to);

/// All plates of a model, parents before children, and the moments between which every crease turns
/// evenly.
struct Figure {
  const Model* model = nullptr;
  std::vector<Plate> plates;
  std::vector<double> moments;
};
[[nodiscard]] Figure figure(const Model& model);

/// The angle of a plate's crease at a moment.
[[nodiscard]] Angle angle_of(const Figure& figure, const Plate& plate, double progress);

}  // namespace quoin::fold
