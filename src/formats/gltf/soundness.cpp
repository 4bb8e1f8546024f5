#include "formats/gltf/soundness.h"

#include <cmath>
#include <set>
#include <stdexcept>

namespace quoin::gltf {
namespace {

void expect(bool sound, const char* otherwise) {
  if (!sound) throw std::logic_error(otherwise);
}

bool is_number(Space s) { return std::isfinite(s.x) && std::isfinite(s.y) && std::isfinite(s.z); }

void expect_placing(const Placing& placing) {
  const Turn& t = placing.turn;
  expect(is_number(placing.move), "a part is moved to no place");
  expect(std::abs(t.x * t.x + t.y * t.y + t.z * t.z + t.w * t.w - 1) < 1e-6,
         "a turn that is no unit quaternion");
}

void expect_mesh(const Mesh& mesh, std::size_t materials) {
  expect(mesh.material >= 0 && static_cast<std::size_t>(mesh.material) < materials,
         "a mesh of a material that does not exist");
  expect(!mesh.triangles.empty() && mesh.triangles.size() % 3 == 0, "a mesh without triangles");
  for (const std::uint32_t index : mesh.triangles) {
    expect(index < mesh.vertices.size(), "a triangle with a vertex that does not exist");
  }
  for (const Vertex& vertex : mesh.vertices) {
    const Space n = vertex.normal;
    expect(is_number(vertex.at) && std::isfinite(vertex.u) && std::isfinite(vertex.v),
           "a vertex that is no number");
    expect(is_number(n) && std::hypot(n.x, n.y, n.z) > 1e-9, "a vertex without a normal");
  }
}

void expect_motion(const Motion& motion, std::size_t parts, std::set<int>& moved) {
  expect(motion.part >= 0 && static_cast<std::size_t>(motion.part) < parts,
         "a motion of a part that does not exist");
  expect(moved.insert(motion.part).second, "two motions of one part");
  expect(!motion.frames.empty(), "a motion without keyframes");
  double before = -1;
  for (const Keyframe& frame : motion.frames) {
    const bool later = static_cast<float>(frame.seconds) > static_cast<float>(before);
    expect(std::isfinite(frame.seconds) && frame.seconds >= 0 && later, "times that do not rise");
    expect(std::isfinite(frame.scale) && frame.scale >= 0, "a scale that is no size");
    before = frame.seconds;
    expect_placing(frame.placing);
  }
}

}  // namespace

void expect_whole(const Model& model) {
  expect(!model.parts.empty(), "a model without parts");
  int number = 0;
  for (const Part& part : model.parts) {
    expect(!part.parent || (*part.parent >= 0 && *part.parent < number),
           "a part that hangs on none before it");
    expect_placing(part.placing);
    for (const Mesh& mesh : part.meshes) expect_mesh(mesh, model.materials.size());
    ++number;
  }
  for (const Animation& animation : model.animations) {
    std::set<int> moved;
    expect(!animation.motions.empty(), "an animation without motions");
    for (const Motion& motion : animation.motions) {
      expect_motion(motion, model.parts.size(), moved);
    }
  }
}

}  // namespace quoin::gltf
