#pragma once
#include "fold/fold.h"

namespace quoin::fold {

/// Width (x), height (y) and depth (z) of something with its faces along the axes.
struct Block {
  Mm width, height, depth;
  bool operator==(const Block&) const = default;
};

/// The room inside a closed box.
struct Clear {
  Block size;
  Vec3 at;  ///< the corner with the smallest x, y and z
};

/// The room for `deck` on the closed model: of all blocks along the axes that hold `middle`, touch
/// no plate and cannot be grown, the one that leaves `deck` most room on its tightest axis (then
/// most in sum). Flaps that reach inside count wherever the deck would lie; a plate counts as the
/// block round it, which for walls and flaps at right angles is itself (notches count as closed).
///
/// Sizes are 0 when a plate lies on `middle`. A side that no plate closes ends 1 m from `middle`.
[[nodiscard]] Clear clear_inside(const Model& model, const Block& deck);

/// What lies between two panels that meet: positive a gap, negative an overlap, along the direction
/// in which they are farthest apart.
struct Gap {
  PanelRef a, b;
  Mm width;
};
/// One for each of the model's meetings, in their order, closed.
[[nodiscard]] std::vector<Gap> gaps(const Model& model);

/// How a glued panel lies on what it is glued to.
struct Contact {
  PanelRef flap, onto;
  double area = 0;  ///< mm² of the glue area that have the other panel over them
  double of = 0;    ///< mm² of the glue area
  Mm apart;  ///< between the two faces: 0 when they touch, negative when they are in each other
};
/// One for each glue area of each part, closed. The area is 0 when the faces are not parallel or
/// more than 0.1 mm apart.
[[nodiscard]] std::vector<Contact> contacts(const Model& model);

/// How far a tuck flap reaches behind the edge of its panel, and how far it is from it.
struct Grip {
  PanelRef flap, behind;
  Mm depth;
  Mm apart;
};
[[nodiscard]] std::vector<Grip> grips(const Model& model);

/// The size of the closed box, outside.
[[nodiscard]] Block outside(const Model& model);

}  // namespace quoin::fold
