#include "fold/mesh.h"

#include <algorithm>

namespace quoin::fold {
namespace {

/// Adds one corner and gives its number.
std::uint32_t add(Mesh& mesh, Point net, double z, Vec3 normal) {
  mesh.corners.push_back({lifted(net, z), normal, net});
  return static_cast<std::uint32_t>(mesh.corners.size() - 1);
}

/// The corners of a face of the board, and its triangles the way round that looks outwards: the
/// outline runs clockwise on the page, which is counter-clockwise when seen against z.
void add_face(Mesh& mesh, const Polygon& outline, double z, std::vector<std::uint32_t>& faces) {
  const Vec3 normal{0, 0, z < 0 ? -1.0 : 1.0};
  const auto first = static_cast<std::uint32_t>(mesh.corners.size());
  for (const Point p : outline) add(mesh, p, z, normal);
  for (const std::array<int, 3>& t : triangles(outline)) {
    const bool turned = z < 0;
    for (const int corner : turned ? std::array{t[0], t[2], t[1]} : t) {
      faces.push_back(first + static_cast<std::uint32_t>(corner));
    }
  }
}

void add_edge(Mesh& mesh, Point a, Point b, double half) {
  const Vec along = b - a;
  const double size = length(along).value;
  if (size == 0) return;
  const Vec3 normal{along.y.value / size, -along.x.value / size, 0};
  const std::uint32_t corners[] = {add(mesh, a, -half, normal), add(mesh, b, -half, normal),
                                   add(mesh, b, half, normal), add(mesh, a, half, normal)};
  for (const int k : {0, 1, 2, 0, 2, 3}) mesh.edge.push_back(corners[k]);
}

}  // namespace

Mesh mesh(const Panel& panel, Mm thickness) {
  Mesh made;
  Polygon outline = panel.outline;
  if (signed_area(outline) < 0) std::reverse(outline.begin(), outline.end());
  const double half = thickness.value / 2;
  add_face(made, outline, -half, made.printed);
  add_face(made, outline, half, made.inside);
  for (std::size_t i = 0; i < outline.size(); ++i) {
    add_edge(made, outline[i], outline[(i + 1) % outline.size()], half);
  }
  return made;
}

}  // namespace quoin::fold
