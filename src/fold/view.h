#pragma once
#include <vector>

#include "fold/space.h"
#include "geometry/polygon.h"

namespace quoin::fold {

/// A parallel projection onto a picture: axonometric, so that equal lengths along one direction are
/// equal in the picture, and every plane face is drawn by an affine map. The three directions have
/// length 1, are square to each other and right-handed: right and down in the picture, and away
/// from the viewer. The default looks at what stands at the front as the net does.
struct View {
  Vec3 right{1, 0, 0}, down{0, 1, 0}, away{0, 0, 1};
};

/// Looking at the front from so far round to the right and from so far above.
[[nodiscard]] View view_from(Angle to_the_right, Angle above);

/// Where a place is seen, in the picture's millimetres.
[[nodiscard]] constexpr Point seen(const View& view, Vec3 at) {
  return {Mm{dot(at, view.right)}, Mm{dot(at, view.down)}};
}
[[nodiscard]] Polygon seen(const View& view, const std::vector<Vec3>& outline);

/// A flat, convex piece of a face: its corners in order, either way round.
struct Facet {
  int face = 0;  ///< the caller's number: facets of one face lie in one plane
  std::vector<Vec3> corners;
  Vec3 normal;  ///< length 1, away from the solid; a facet turned from the viewer is not seen
};

/// What of one face is drawn at one go: convex pieces in the picture, clockwise on the page, that
/// share no area.
struct Shown {
  int face = 0;
  std::vector<Polygon> pieces;
};

/// The facets in an order of painting, those behind first, so that each covers what it hides:
/// facets are cut along each other's planes where they must be, pieces that are hidden altogether
/// are left out, and pieces of one face are drawn together when the order allows.
///
/// The facets are those of closed solids. Right for any of them, also for solids that go into each
/// other: a binary space partition, after H. Fuchs, Z. Kedem, B. Naylor, "On Visible Surface
/// Generation by A Priori Tree Structures", SIGGRAPH 1980 (from memory). Facets that lie in one
/// plane within 0.0001 mm are taken in their own order, the later over the earlier.
[[nodiscard]] std::vector<Shown> back_to_front(const std::vector<Facet>& facets, const View& view);

}  // namespace quoin::fold
