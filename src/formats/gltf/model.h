#pragma once
#include <array>
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "base/world.h"
#include "media/colour.h"

namespace quoin::gltf {

/// A place or a direction in space. Places are millimetres in a right-handed frame, y up, z towards
/// whoever looks at the front (glTF 2.0, 3.4). What was built with y down and z away from the
/// viewer, like a net, needs a root part turned by half a turn about x: Turn{1, 0, 0, 0}.
struct Space {
  double x = 0, y = 0, z = 0;
  bool operator==(const Space&) const = default;
};

/// A turn as a unit quaternion: the axis times the sine of half the angle, and its cosine.
struct Turn {
  double x = 0, y = 0, z = 0, w = 1;
  bool operator==(const Turn&) const = default;
};

/// The turn that a rotation matrix, row after row, stands for. The matrix must be orthonormal to
/// 1e-6 and must not mirror (`std::logic_error` otherwise).
[[nodiscard]] Turn turn_of(const std::array<double, 9>& rows);

/// Where a part lies in its parent's frame: turned first, then moved.
struct Placing {
  Turn turn;
  Space move;
};

struct Vertex {
  Space at;
  Space normal;         ///< outwards; made to length 1
  double u = 0, v = 0;  ///< in the texture, 0 to 1 from its top left
};

/// Triangles of one material: three vertex numbers each, counter-clockwise seen from outside.
struct Mesh {
  std::vector<Vertex> vertices;
  std::vector<std::uint32_t> triangles;
  int material = 0;
};

/// A rigid part that moves as one.
struct Part {
  std::string name;
  std::optional<int> parent;  ///< an earlier part
  Placing placing;
  std::vector<Mesh> meshes;  ///< none: the part only carries others
};

/// What a surface looks like. Colours are sRGB, an alpha below 1 lets through what lies behind.
struct Material {
  std::string name;
  Colour base;
  std::optional<Bytes> texture;  ///< a PNG, multiplied with `base`; its alpha counts nothing
  double roughness = 0.8;        ///< 0 a mirror, 1 chalk
};

/// Where a part lies at a time; in between turns, moves and scales are interpolated evenly.
struct Keyframe {
  double seconds = 0;
  Placing placing;
  double scale = 1;  ///< how large it is; 0: not to be seen
};

struct Motion {
  int part = 0;
  std::vector<Keyframe> frames;  ///< at least one, times rising
};

struct Animation {
  std::string name;
  std::vector<Motion> motions;  ///< at most one for each part
};

/// Solid things in space, in parts that hang on each other.
struct Model {
  std::string title, author, creator;  ///< creator: "Quoin 0.1"
  std::vector<Material> materials;
  std::vector<Part> parts;
  std::vector<Animation> animations;
};

}  // namespace quoin::gltf
