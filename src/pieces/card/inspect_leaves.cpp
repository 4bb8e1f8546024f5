#include "pieces/card/inspect_leaves.h"

#include <algorithm>
#include <cmath>

namespace quoin::pieces {
namespace {

void collect(const std::vector<Item>& items, const Leaf& within, std::vector<Leaf>& leaves) {
  for (const Item& item : items) {
    Leaf leaf = within;
    leaf.item = &item;
    leaf.outer = within.map;
    leaf.map = then(item.map, within.map);
    leaf.opacity = within.opacity * item.opacity;
    if (item.role == Role::decoration) leaf.role = Role::decoration;
    const GroupItem* group = std::get_if<GroupItem>(&item.what);
    if (group == nullptr) {
      leaves.push_back(std::move(leaf));
      continue;
    }
    leaf.groups.push_back(&item);
    collect(group->items, leaf, leaves);
  }
}

}  // namespace

std::string Leaf::element() const {
  if (!item->element.empty()) return item->element;
  for (auto group = groups.rbegin(); group != groups.rend(); ++group) {
    if (!(*group)->element.empty()) return (*group)->element;
  }
  return {};
}

Origin Leaf::origin(const Origin& row) const {
  if (!item->origin.file.empty()) return item->origin;
  for (auto group = groups.rbegin(); group != groups.rend(); ++group) {
    if (!(*group)->origin.file.empty()) return (*group)->origin;
  }
  return row;
}

std::vector<Leaf> leaves_of(const Scene& scene) {
  std::vector<Leaf> leaves;
  collect(scene.items, Leaf{}, leaves);
  return leaves;
}

std::optional<Rect> visible_ink(const Leaf& leaf) {
  const std::optional<Rect> own = ink(*leaf.item);
  if (!own) return std::nullopt;
  std::optional<Rect> seen = bounds(leaf.outer, *own);
  Affine map;
  for (const Item* group : leaf.groups) {
    map = then(group->map, map);
    if (group->clip && seen) seen = overlap(*seen, bounds(mapped(*group->clip, map)));
  }
  return seen;
}

std::vector<Quad> line_quads(const Leaf& leaf) {
  std::vector<Quad> quads;
  const TextItem& text = *leaf.text();
  for (Rect line : text.set.facts().line_ink) {
    if (line.size.width <= Mm{0} || line.size.height <= Mm{0}) continue;
    line.at = line.at + Vec{text.at.x, text.at.y};
    quads.push_back({leaf.map(line.at), leaf.map(Point{line.right(), line.top()}),
                     leaf.map(Point{line.right(), line.bottom()}),
                     leaf.map(Point{line.left(), line.bottom()})});
  }
  return quads;
}

double mean_scale(const Affine& map) { return std::sqrt(std::abs(map.determinant())); }

double smallest_scale(const Affine& map) {
  // Singular values of [a c; b d]: half the sum and difference of two lengths.
  const double sum = std::hypot(map.a + map.d, map.b - map.c);
  const double difference = std::hypot(map.a - map.d, map.b + map.c);
  return std::abs(sum - difference) / 2;
}

}  // namespace quoin::pieces
