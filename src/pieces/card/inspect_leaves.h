#pragma once
#include <array>
#include <optional>
#include <vector>

#include "scene/scene.h"

namespace quoin::pieces {

/// One drawn thing of a scene that is no group, with the groups it lies in. Refers to the scene.
struct Leaf {
  const Item* item = nullptr;
  std::vector<const Item*> groups;  ///< outermost first
  Affine outer;                     ///< from the frame in which the item is drawn to the trim's
  Affine map;                       ///< from the item's own frame (before its map) to the trim's
  double opacity = 1;               ///< its own and that of its groups
  Role role = Role::ordinary;       ///< decoration when it or any of its groups is

  [[nodiscard]] const TextItem* text() const { return std::get_if<TextItem>(&item->what); }
  [[nodiscard]] const ShapeItem* shape() const { return std::get_if<ShapeItem>(&item->what); }
  [[nodiscard]] const PictureItem* picture() const { return std::get_if<PictureItem>(&item->what); }
  /// The element to name in a finding: its own, or that of the nearest group which has one.
  [[nodiscard]] std::string element() const;
  /// Its own place in the files, or that of the nearest group which has one, or `row`.
  [[nodiscard]] Origin origin(const Origin& row) const;
};

/// All leaves in drawing order, the lowest first.
[[nodiscard]] std::vector<Leaf> leaves_of(const Scene& scene);

/// Round all that is seen of the leaf, in the trim's frame: clips of its groups counted by their
/// bounding rectangles. Nothing when it draws nothing.
[[nodiscard]] std::optional<Rect> visible_ink(const Leaf& leaf);

/// The ink of each line of a text as four corners in the trim's frame, in order round it.
using Quad = std::array<Point, 4>;
[[nodiscard]] std::vector<Quad> line_quads(const Leaf& leaf);

/// How much larger things become under the map: the square root of its area factor.
[[nodiscard]] double mean_scale(const Affine& map);
/// How wide a line of width 1 becomes at its thinnest: the smaller singular value.
[[nodiscard]] double smallest_scale(const Affine& map);

}  // namespace quoin::pieces
