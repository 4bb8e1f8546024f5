#include "pieces/box/draft.h"

#include <algorithm>
#include <cmath>

namespace quoin::pieces {

int add_panel(fold::Net& net, std::string name, Polygon outline, Angle upright, fold::Seen seen) {
  net.panels.push_back({std::move(name), std::move(outline), upright, seen});
  return static_cast<int>(net.panels.size()) - 1;
}

fold::Hinge& add_crease(fold::Net& net, int parent, int child, Point from, Point to, int step) {
  const double starts = step;
  return net.hinges.emplace_back(
      fold::Hinge{parent, child, from, to, {{starts, Angle{}}, {starts + 1, square_fold}}});
}

Polygon block(Mm left, Mm top, Mm right, Mm bottom) {
  return {{left, top}, {right, top}, {right, bottom}, {left, bottom}};
}

void add_arc(Polygon& outline, Point centre, Mm radius, Angle from, Angle to) {
  constexpr double within = 0.02;
  const double span = std::abs(to.radians - from.radians);
  const double chord = 2 * std::acos(std::max(0.0, 1 - within / std::max(radius.value, within)));
  const int count = std::max(2, static_cast<int>(std::ceil(span / chord)));
  for (int i = 0; i <= count; ++i) {
    const SinCos t = sin_cos(Angle{from.radians + (to.radians - from.radians) * i / count});
    outline.push_back(centre + Vec{radius * t.cos, radius * t.sin});
  }
}

Polygon flap(Point a, Point b, Mm depth, Mm taper, Mm radius) {
  const Vec along = b - a;
  const double size = length(along).value;
  const Vec ahead = along * (1 / size);
  const Vec up{ahead.y, -ahead.x};
  const auto place = [&](Mm forward, Mm high) {
    return a + ahead * forward.value + up * high.value;
  };
  const Mm wide{size};
  if (radius <= Mm{}) {
    return {a, place(taper, depth), place(wide - taper, depth), b};
  }
  const Mm r = std::min({radius, depth * 0.8, (wide - taper * 2) / 2});
  // Drawn upright on a page of its own, then laid on its side of the net.
  Polygon drawn;
  drawn.push_back({Mm{}, Mm{}});
  add_arc(drawn, {taper + r, -depth + r}, r, Angle::degrees(180), Angle::degrees(270));
  add_arc(drawn, {wide - taper - r, -depth + r}, r, Angle::degrees(270), Angle::degrees(360));
  drawn.push_back({wide, Mm{}});
  Polygon outline;
  for (const Point p : drawn) {
    const Point laid = place(p.x, -p.y);
    if (outline.empty() || length(laid - outline.back()).value > 1e-9) outline.push_back(laid);
  }
  return outline;
}

Polygon notched(Mm left, Mm top, Mm right, Mm bottom, Notches notches) {
  const Mm middle = (left + right) / 2;
  Polygon outline{{left, top}};
  if (notches.top > Mm{}) {
    add_arc(outline, {middle, top}, notches.top, Angle::degrees(180), Angle::degrees(0));
  }
  outline.push_back({right, top});
  outline.push_back({right, bottom});
  if (notches.bottom > Mm{}) {
    add_arc(outline, {middle, bottom}, notches.bottom, Angle::degrees(360), Angle::degrees(180));
  }
  outline.push_back({left, bottom});
  return outline;
}

}  // namespace quoin::pieces
