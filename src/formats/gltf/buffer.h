#pragma once
#include <cstdint>
#include <nlohmann/json.hpp>
#include <span>
#include <string_view>
#include <vector>

#include "base/world.h"

namespace quoin::gltf {

using Json = nlohmann::ordered_json;

/// What a stretch of the buffer is for (glTF 2.0, 5.11.5): the numbers are the standard's.
enum class Target { none = 0, vertices = 34962, indices = 34963 };

/// The binary part of a file, with its views and accessors. Everything starts at a multiple of four
/// bytes and is little-endian.
class Buffer {
 public:
  /// Vectors of `parts` 32-bit numbers each; gives the accessor's number. With bounds, the accessor
  /// says the least and largest of each part, which the standard asks of positions and times.
  enum class Bounds { left_out, said };
  int vectors(const std::vector<float>& values, int parts, Target target, Bounds bounds);
  /// Indices below `vertices`, in 16 bits where that is enough.
  int indices(const std::vector<std::uint32_t>& values, std::size_t vertices);
  /// Bytes as they are; gives the view's number.
  int view(std::string_view bytes, Target target);

  [[nodiscard]] const Json& views() const { return views_; }
  [[nodiscard]] const Json& accessors() const { return accessors_; }
  [[nodiscard]] const Bytes& bytes() const { return bytes_; }

 private:
  Bytes bytes_;
  Json views_ = Json::array(), accessors_ = Json::array();
};

/// The 32 bits of `value`, lowest byte first.
void put_word(Bytes& to, std::uint32_t value);

}  // namespace quoin::gltf
