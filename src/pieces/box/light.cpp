#include "pieces/box/light.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace quoin::pieces {
namespace {

using fold::Vec3;

constexpr Vec3 to_the_light{-0.35, -0.75, -0.56};  // length 1 within a hundredth
constexpr double as_the_front = 0.56;              // the front is shown as its art is

/// Places of everything on the stage.
std::vector<Vec3> corners_of(const Stage& stage) {
  std::vector<Vec3> corners;
  for (const StagedNet& net : stage.nets) {
    for (std::size_t i = 0; i < net.places.size(); ++i) {
      for (const Point p : net.net.panels[i].outline) {
        corners.push_back(net.places[i](fold::lifted(p)));
      }
    }
  }
  return corners;
}

/// The outline round all places within `by` of a convex one.
Polygon rounded_out(const Polygon& outline, double by) {
  constexpr int corners = 24;
  std::vector<Point> places;
  for (const Point p : outline) {
    for (int k = 0; k < corners; ++k) {
      const double angle = 2 * std::numbers::pi * k / corners;
      places.push_back(p + Vec{Mm{by * std::cos(angle)}, Mm{by * std::sin(angle)}});
    }
  }
  return fold::convex_hull(std::move(places));
}

/// A shape on the ground, as the picture has it.
Path on_ground(const Polygon& outline, double ground, const fold::View& view) {
  Polygon shown;
  for (const Point p : outline) {
    shown.push_back(fold::seen(view, {p.x.value, ground, p.y.value}));
  }
  return Path::polygon(shown);
}

/// Places at the foot of what has these corners, and how high it reaches; heights over the ground.
struct Standing {
  std::vector<Vec3> foot;
  double lowest = 1e9, highest = 0, width = 0;
};

Standing standing(const std::vector<Vec3>& corners, double ground) {
  constexpr double still_foot = 3;
  Standing what;
  double least = 1e9, most = -1e9;
  for (const Vec3 p : corners) {
    what.lowest = std::min(what.lowest, ground - p.y);
    what.highest = std::max(what.highest, ground - p.y);
  }
  for (const Vec3 p : corners) {
    if (ground - p.y > what.lowest + still_foot) continue;
    what.foot.push_back(p);
    least = std::min(least, p.x);
    most = std::max(most, p.x);
  }
  what.width = most - least;
  return what;
}

/// The shadow of one net's corners, as of walls upon its foot: shapes one in the other, which reach
/// farther from where it stands and are softer the paler they are.
void add_shadow(const std::vector<Vec3>& corners, double ground, const fold::View& view,
                std::vector<Item>& items) {
  constexpr int layers = 24;
  constexpr double aside = 0.22, behind = 0.14;  // for each millimetre of height
  constexpr double tallest = 80, palest = 0.010, darkest = 0.016;
  const Standing what = standing(corners, ground);
  const double soft = std::clamp(what.width * 0.12, 2.0, 14.0);
  for (int k = 0; k < layers; ++k) {
    const double far = 1 - (k + 0.5) / layers;
    std::vector<Point> places;
    for (const Vec3 p : what.foot) {
      for (const double at : {what.lowest, what.highest}) {
        const double height = std::min(at, tallest) * far;
        places.push_back({Mm{p.x + aside * height}, Mm{p.z + behind * height}});
      }
    }
    const Polygon hull = fold::convex_hull(std::move(places));
    if (hull.empty()) continue;
    const Colour ink = thinned(shade_ink, palest + (darkest - palest) * (1 - far));
    items.push_back(
        filled(on_ground(rounded_out(hull, 0.4 + soft * far * far), ground, view), ink));
  }
}

}  // namespace

Item filled(Path path, Paint fill) {
  ShapeItem shape;
  shape.path = std::move(path);
  shape.fill = std::move(fill);
  Item item;
  item.what = std::move(shape);
  return item;
}

Shading shading(Vec3 normal, Rect round) {
  constexpr double darkening = 0.28, lightening = 0.30, slope = 0.035;
  const double short_of = as_the_front - dot(normal, to_the_light);
  const auto paint = [&](double darker) {
    const double dark = short_of * darkening + darker;
    if (dark >= 0) return thinned(shade_ink, std::min(dark, 0.45));
    return thinned(white, std::min(-dark / darkening * lightening, 0.35));
  };
  const Point foot{round.right(), round.bottom()};
  return LinearGradient{round.at, foot, {{paint(-slope), 0}, {paint(slope), 1}}};
}

Shading lit(Colour plain, const Shading& light) {
  Shading made = light;
  for (GradientStop& stop : made.stops) stop.colour = composited(stop.colour, plain);
  return made;
}

std::vector<Item> ground_shadow(const Stage& stage) {
  std::vector<Item> items;
  double ground = -1e9;
  for (const Vec3 p : corners_of(stage)) ground = std::max(ground, p.y);
  for (const StagedNet& net : stage.nets) {
    Stage alone;
    alone.nets = {net};
    add_shadow(corners_of(alone), ground, stage.view, items);
  }
  return items;
}

}  // namespace quoin::pieces
