#pragma once
#include <optional>
#include <vector>

#include "fold/mesh.h"
#include "fold/surface.h"
#include "fold/view.h"
#include "pieces/box/stage.h"

namespace quoin::pieces {

/// For tests: which surface is nearest behind a place of a picture, found by comparing the depths
/// of the triangles of `fold::mesh` there, as a depth buffer does (E. Catmull, "A Subdivision
/// Algorithm for Computer Display of Curved Surfaces", University of Utah, 1974). It shares no code
/// with the painting in order.
class DepthPicture {
 public:
  struct Hit {
    int net = 0, panel = 0;
    fold::Side side = fold::Side::printed;
    double depth = 0;
    bool operator==(const Hit& other) const {
      return net == other.net && panel == other.panel && side == other.side;
    }
  };

  explicit DepthPicture(const Stage& stage) {
    for (int i = 0; i < std::ssize(stage.nets); ++i) {
      const StagedNet& net = stage.nets[i];
      for (int k = 0; k < std::ssize(net.net.panels); ++k) {
        const fold::Mesh mesh = fold::mesh(net.net.panels[k], net.net.thickness);
        add(stage.view, mesh, mesh.printed, net.places[k], {i, k, fold::Side::printed, 0});
        add(stage.view, mesh, mesh.inside, net.places[k], {i, k, fold::Side::inside, 0});
        add(stage.view, mesh, mesh.edge, net.places[k], {i, k, fold::Side::edge, 0});
      }
    }
  }

  /// The nearest surface, and whatever lies within `tie` millimetres behind it.
  [[nodiscard]] std::vector<Hit> nearest(double x, double y, double tie) const {
    std::vector<Hit> hits;
    double least = 1e9;
    for (const Triangle& triangle : triangles_) {
      const std::optional<double> depth = triangle.depth_at(x, y);
      if (!depth) continue;
      least = std::min(least, *depth);
      hits.push_back(triangle.what);
      hits.back().depth = *depth;
    }
    std::erase_if(hits, [&](const Hit& hit) { return hit.depth > least + tie; });
    return hits;
  }

 private:
  struct Triangle {
    Hit what;
    double x[3], y[3], z[3];

    [[nodiscard]] std::optional<double> depth_at(double px, double py) const {
      const double all = (x[1] - x[0]) * (y[2] - y[0]) - (x[2] - x[0]) * (y[1] - y[0]);
      if (std::abs(all) < 1e-12) return std::nullopt;
      const double b = ((px - x[0]) * (y[2] - y[0]) - (x[2] - x[0]) * (py - y[0])) / all;
      const double c = ((x[1] - x[0]) * (py - y[0]) - (px - x[0]) * (y[1] - y[0])) / all;
      if (b < 0 || c < 0 || b + c > 1) return std::nullopt;
      return z[0] + b * (z[1] - z[0]) + c * (z[2] - z[0]);
    }
  };

  void add(const fold::View& view, const fold::Mesh& mesh,
           const std::vector<std::uint32_t>& corners, const fold::Rigid& place, Hit what) {
    for (std::size_t i = 0; i + 2 < corners.size(); i += 3) {
      Triangle triangle{what, {}, {}, {}};
      for (std::size_t k = 0; k < 3; ++k) {
        const fold::Vec3 at = place(mesh.corners[corners[i + k]].at);
        triangle.x[k] = dot(at, view.right);
        triangle.y[k] = dot(at, view.down);
        triangle.z[k] = dot(at, view.away);
      }
      triangles_.push_back(triangle);
    }
  }

  std::vector<Triangle> triangles_;
};

}  // namespace quoin::pieces
