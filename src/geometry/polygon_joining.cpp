// The operations on polygons that Boost.Geometry does for us; its types stay in here.
#define BOOST_ALLOW_DEPRECATED_HEADERS  // one that Boost includes itself
#include <boost/geometry.hpp>
#include <boost/geometry/geometries/multi_polygon.hpp>
#include <boost/geometry/geometries/point_xy.hpp>
#include <boost/geometry/geometries/polygon.hpp>
#include <cmath>

#include "geometry/polygon.h"

namespace quoin {
namespace {

namespace bg = boost::geometry;
using Place = bg::model::d2::point_xy<double>;
using Shape = bg::model::polygon<Place>;
using Shapes = bg::model::multi_polygon<Shape>;

/// To a millionth of a millimetre: sides that were computed in two ways become one.
double rounded(Mm length) { return std::round(length.value * 1e6) / 1e6; }

void put_ring(const Polygon& polygon, Shape::ring_type& ring) {
  for (const Point p : polygon) bg::append(ring, Place{rounded(p.x), rounded(p.y)});
}

Shape to_shape(const Region& region) {
  Shape shape;
  put_ring(region.outer, shape.outer());
  for (const Polygon& hole : region.holes) put_ring(hole, shape.inners().emplace_back());
  bg::correct(shape);
  return shape;
}

Polygon from_ring(const Shape::ring_type& ring) {
  Polygon polygon;
  for (const Place& p : ring) polygon.push_back({Mm{p.x()}, Mm{p.y()}});
  if (!polygon.empty()) polygon.pop_back();  // Boost says the first corner twice
  return polygon;
}

std::vector<Region> from_shapes(const Shapes& shapes) {
  std::vector<Region> regions;
  for (const Shape& shape : shapes) {
    Region& region = regions.emplace_back(Region{from_ring(shape.outer()), {}});
    for (const auto& inner : shape.inners()) region.holes.push_back(from_ring(inner));
  }
  return regions;
}

Shapes to_shapes(const std::vector<Region>& regions) {
  Shapes shapes;
  for (const Region& region : regions) shapes.push_back(to_shape(region));
  return shapes;
}

Shapes united_shapes(const std::vector<Polygon>& polygons) {
  Shapes all;
  for (const Polygon& polygon : polygons) {
    Shapes more;
    bg::union_(all, to_shape({polygon, {}}), more);
    all = std::move(more);
  }
  return all;
}

/// Without the corners that lie on the line between their neighbours.
Shapes tidied(const Shapes& shapes) {
  Shapes tidy;
  bg::simplify(shapes, tidy, 1e-7);
  return tidy;
}

}  // namespace

bool is_simple(const Polygon& polygon) {
  if (polygon.size() < 3) return false;
  Shape shape;
  for (const Point p : polygon) {
    if (!std::isfinite(p.x.value) || !std::isfinite(p.y.value)) return false;
    bg::append(shape.outer(), Place{p.x.value, p.y.value});
  }
  bg::correct(shape);
  return bg::is_valid(shape);
}

std::vector<Region> united(const std::vector<Polygon>& polygons) {
  return from_shapes(tidied(united_shapes(polygons)));
}

std::vector<Region> common(const Polygon& a, const Polygon& b) {
  Shapes both;
  bg::intersection(to_shape({a, {}}), to_shape({b, {}}), both);
  return from_shapes(both);
}

std::vector<Region> without(const std::vector<Region>& regions, const std::vector<Polygon>& cut) {
  Shapes left;
  bg::difference(to_shapes(regions), united_shapes(cut), left);
  return from_shapes(left);
}

std::vector<Region> grown(const std::vector<Region>& regions, Mm by) {
  namespace buffer = bg::strategy::buffer;
  Shapes wider;
  bg::buffer(to_shapes(regions), wider, buffer::distance_symmetric<double>(by.value),
             buffer::side_straight(), buffer::join_miter(2), buffer::end_flat(),
             buffer::point_circle(36));
  return from_shapes(wider);
}

}  // namespace quoin
