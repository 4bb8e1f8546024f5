#pragma once
#include <vector>

#include "pieces/box/panel_run.h"
#include "pieces/card/inspect_leaves.h"

namespace quoin::pieces {

/// A straight piece of an edge.
struct EdgePiece {
  Point from, to;
};

/// The edges of a run's panels that are cut, in the run's frame: all of their outlines but the
/// creases.
[[nodiscard]] std::vector<EdgePiece> cut_edges(const PrintedNet& net, const PanelRun& run);

/// A panel at which a quad lies, in the frame of the run: one of the run's own, or one that a
/// crease joins to it.
struct PanelNear {
  int panel = 0;
  bool of_run = false;
  Polygon outline;
};
[[nodiscard]] std::vector<PanelNear> panels_near(const PrintedNet& net, const PanelRun& run);

/// How a quad lies to the cuts.
struct ToCut {
  Mm past;      ///< how far it reaches beyond the panels; 0 when it does not
  Mm distance;  ///< to the nearest cut when it lies inside
};
[[nodiscard]] ToCut to_cut(const Quad& quad, const std::vector<EdgePiece>& cuts,
                           const std::vector<PanelNear>& panels);

/// The part of a quad that lies on a polygon: mm² and the rectangle round it.
struct Overlay {
  double area = 0;
  Rect box;
};
[[nodiscard]] Overlay overlay(const Quad& quad, const Polygon& polygon);

}  // namespace quoin::pieces
