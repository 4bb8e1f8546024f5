#include "pieces/box/closure.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace quoin::pieces {
namespace {

/// A place in the plane of the swing, the hinge at its origin: u towards the panel that is tucked
/// behind, v out of the box; millimetres.
struct Place {
  double u = 0, v = 0;
};

struct Swing {
  double radius = 0;  ///< the lid's length
  double strip = 0;   ///< width of a strip
  double bend = 0;    ///< the angle between two strips on the circle
  int strips = 0;
};

constexpr double quarter = std::numbers::pi / 2;

Swing swing_of(Mm lid_length, Mm flap_depth) {
  Swing swing;
  swing.radius = lid_length.value;
  swing.strips =
      std::max(6, static_cast<int>(std::ceil(flap_depth.value / (0.2 * lid_length.value))));
  swing.strip = flap_depth.value / swing.strips;
  swing.bend = 2 * std::asin(std::min(1.0, swing.strip / (2 * swing.radius)));
  return swing;
}

/// The ends of the strips with the lid `open` short of closed: first on the circle, then down.
std::vector<Place> nodes(const Swing& swing, double open) {
  std::vector<Place> places{{swing.radius * std::cos(open), swing.radius * std::sin(open)}};
  for (int k = 1; k <= swing.strips; ++k) {
    const double angle = open - k * swing.bend;
    if (angle >= 0) {
      places.push_back({swing.radius * std::cos(angle), swing.radius * std::sin(angle)});
      continue;
    }
    const Place last = places.back();
    const double across = swing.radius - last.u;
    const double down = std::sqrt(std::max(0.0, swing.strip * swing.strip - across * across));
    places.push_back({swing.radius, last.v - down});
  }
  return places;
}

/// How far the way from b to c is turned into the box against the way from a to b.
Angle turned(Place a, Place b, Place c) {
  const Place in{b.u - a.u, b.v - a.v}, out{c.u - b.u, c.v - b.v};
  return Angle{std::atan2(in.v * out.u - in.u * out.v, in.u * out.u + in.v * out.v)};
}

struct Moment {
  std::vector<Angle> strips;
  Angle straight;  ///< of the line from crease to far edge
};

Moment moment(const Swing& swing, double open) {
  const std::vector<Place> places = nodes(swing, open);
  Moment at;
  at.straight = turned({}, places.front(), places.back());
  Place before;
  for (int k = 0; k < swing.strips; ++k) {
    at.strips.push_back(turned(before, places[k], places[k + 1]));
    before = places[k];
  }
  return at;
}

fold::Hinge& hinge_of(fold::Net& net, int child) {
  return *std::find_if(net.hinges.begin(), net.hinges.end(),
                       [&](const fold::Hinge& hinge) { return hinge.child == child; });
}

/// How far the lid is open at the moments between which the flap is taken to move evenly: half a
/// strip apart while it slides in.
std::vector<double> openings(const Swing& swing) {
  const double slides_from = swing.strips * swing.bend;
  std::vector<double> opens;
  if (slides_from < quarter) opens.push_back(quarter);
  for (int k = 2 * swing.strips; k >= 0; --k) opens.push_back(k * swing.bend / 2);
  return opens;
}

}  // namespace

void bow_in(fold::Net& net, int lid, int flap, Mm lid_length, Mm flap_depth, int step) {
  constexpr double bowing = 0.3;  // of the step
  const Swing swing = swing_of(lid_length, flap_depth);
  const std::vector<double> opens = openings(swing);
  fold::Hinge& lid_hinge = hinge_of(net, lid);
  fold::Hinge& flap_hinge = hinge_of(net, flap);
  const double starts = step, slides = starts + bowing;
  fold::Bow bow{flap, flap_depth, {}};
  bow.moments.push_back({starts, std::vector<Angle>(swing.strips)});
  lid_hinge.turns = {{starts, Angle{}}};
  flap_hinge.turns = {{starts, Angle{}}};
  for (const double open : opens) {
    const double done = (opens.front() - open) / opens.front();
    const double progress = open == 0 ? starts + 1 : slides + (1 - bowing) * done;
    Moment at = moment(swing, open);
    if (open == 0) {  // exactly, so that the closed box has square corners
      at.straight = Angle::degrees(90);
      at.strips.assign(swing.strips, Angle{});
      at.strips.front() = Angle::degrees(90);
    }
    lid_hinge.turns.push_back({progress, open == 0 ? Angle::degrees(90) : Angle{quarter - open}});
    flap_hinge.turns.push_back({progress, at.straight});
    bow.moments.push_back({progress, std::move(at.strips)});
  }
  net.bows.push_back(std::move(bow));
}

}  // namespace quoin::pieces
