#include "pieces/box/run_edges.h"

#include <algorithm>
#include <cmath>

namespace quoin::pieces {
namespace {

double along_piece(const EdgePiece& edge, Point p) {
  const Vec way = edge.to - edge.from, to = p - edge.from;
  const double square = way.x.value * way.x.value + way.y.value * way.y.value;
  return square > 0 ? (to.x.value * way.x.value + to.y.value * way.y.value) / square : 0;
}

Point place_along(const EdgePiece& edge, double t) { return edge.from + (edge.to - edge.from) * t; }

Mm distance_to(const EdgePiece& edge, Point p) {
  return length(p - place_along(edge, std::clamp(along_piece(edge, p), 0.0, 1.0)));
}

bool lies_on(const EdgePiece& edge, Point p) {
  return length(p - place_along(edge, along_piece(edge, p))) < epsilon;
}

/// What is left of an edge without the stretches that are creases.
void add_without_creases(const EdgePiece& edge, const std::vector<EdgePiece>& creases,
                         std::vector<EdgePiece>& left) {
  std::vector<std::pair<double, double>> taken;
  for (const EdgePiece& crease : creases) {
    if (!lies_on(edge, crease.from) || !lies_on(edge, crease.to)) continue;
    const double a = along_piece(edge, crease.from), b = along_piece(edge, crease.to);
    taken.emplace_back(std::min(a, b), std::max(a, b));
  }
  std::sort(taken.begin(), taken.end());
  taken.emplace_back(1, 1);
  constexpr Mm too_short{0.05};
  double from = 0;
  for (const auto& [start, end] : taken) {
    const EdgePiece piece{place_along(edge, from), place_along(edge, std::min(start, 1.0))};
    if (start > from && length(piece.to - piece.from) > too_short) left.push_back(piece);
    from = std::max(from, end);
  }
}

const RunStretch& stretch_at(const PanelRun& run, std::size_t nth) {
  return run.stretches[static_cast<std::size_t>(run.stretch_of[nth])];
}

std::vector<EdgePiece> creases_of(const PrintedNet& net, const PanelRun& run, std::size_t nth) {
  const Affine from_net = *inverse(stretch_at(run, nth).to_net);
  std::vector<EdgePiece> creases;
  for (const fold::Hinge& hinge : net.hinges) {
    if (hinge.parent != run.panels[nth] && hinge.child != run.panels[nth]) continue;
    creases.push_back({from_net(hinge.from), from_net(hinge.to)});
  }
  return creases;
}

/// By the even-odd rule.
bool holds(const Polygon& polygon, Point p) {
  bool inside = false;
  for (std::size_t i = 0, j = polygon.size() - 1; i < polygon.size(); j = i++) {
    const Point a = polygon[i], b = polygon[j];
    if ((a.y > p.y) == (b.y > p.y)) continue;
    const double t = (p.y - a.y) / (b.y - a.y);
    if (p.x < a.x + (b.x - a.x) * t) inside = !inside;
  }
  return inside;
}

bool is_on_a_panel(Point p, const std::vector<PanelNear>& panels) {
  return std::any_of(panels.begin(), panels.end(),
                     [&](const PanelNear& near) { return holds(near.outline, p); });
}

Mm nearest_of(const std::vector<EdgePiece>& cuts, Point p) {
  Mm nearest{1e9};
  for (const EdgePiece& cut : cuts) nearest = std::min(nearest, distance_to(cut, p));
  return nearest;
}

}  // namespace

std::vector<EdgePiece> cut_edges(const PrintedNet& net, const PanelRun& run) {
  std::vector<EdgePiece> cuts;
  for (std::size_t nth = 0; nth < run.panels.size(); ++nth) {
    const std::vector<EdgePiece> creases = creases_of(net, run, nth);
    const Polygon& outline = run.outlines[nth];
    for (std::size_t i = 0; i < outline.size(); ++i) {
      add_without_creases({outline[i], outline[(i + 1) % outline.size()]}, creases, cuts);
    }
  }
  return cuts;
}

std::vector<PanelNear> panels_near(const PrintedNet& net, const PanelRun& run) {
  std::vector<PanelNear> all;
  for (std::size_t nth = 0; nth < run.panels.size(); ++nth) {
    all.push_back({run.panels[nth], true, run.outlines[nth]});
  }
  for (std::size_t nth = 0; nth < run.panels.size(); ++nth) {
    const Affine from_net = *inverse(stretch_at(run, nth).to_net);
    for (const int panel : creased_to(net, run.panels[nth])) {
      if (std::find(run.panels.begin(), run.panels.end(), panel) != run.panels.end()) continue;
      Polygon outline = net.panels[static_cast<std::size_t>(panel)].outline;
      for (Point& corner : outline) corner = from_net(corner);
      all.push_back({panel, false, std::move(outline)});
    }
  }
  return all;
}

ToCut to_cut(const Quad& quad, const std::vector<EdgePiece>& cuts,
             const std::vector<PanelNear>& panels) {
  ToCut found{Mm{}, Mm{1e9}};
  for (const Point corner : quad) {
    const Mm nearest = nearest_of(cuts, corner);
    found.distance = std::min(found.distance, nearest);
    if (!is_on_a_panel(corner, panels)) found.past = std::max(found.past, nearest);
  }
  for (const EdgePiece& cut : cuts) {
    for (std::size_t i = 0; i < quad.size(); ++i) {
      const EdgePiece side{quad[i], quad[(i + 1) % quad.size()]};
      found.distance = std::min(found.distance, distance_to(side, cut.from));
    }
  }
  return found;
}

Overlay overlay(const Quad& quad, const Polygon& polygon) {
  Overlay found;
  for (const Region& both : common(Polygon(quad.begin(), quad.end()), polygon)) {
    const Rect box = bounds(both.outer);
    found.box = found.area > 0 ? covering(found.box, box) : box;
    found.area += area(both.outer);
  }
  return found;
}

}  // namespace quoin::pieces
