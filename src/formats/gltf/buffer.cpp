#include "formats/gltf/buffer.h"

#include <algorithm>
#include <bit>

namespace quoin::gltf {
namespace {

constexpr int unsigned_short = 5123, unsigned_int = 5125, float_32 = 5126;  // glTF 2.0, 3.6.2.2
constexpr std::size_t largest_short_index = 65534;  // 65535 restarts a primitive

void put_half(Bytes& to, std::uint32_t value) {
  to.push_back(static_cast<char>(value & 0xff));
  to.push_back(static_cast<char>(value >> 8 & 0xff));
}

const char* kind(int parts) {
  switch (parts) {
    case 1:
      return "SCALAR";
    case 2:
      return "VEC2";
    case 3:
      return "VEC3";
    default:
      return "VEC4";
  }
}

}  // namespace

void put_word(Bytes& to, std::uint32_t value) {
  put_half(to, value & 0xffff);
  put_half(to, value >> 16);
}

int Buffer::view(std::string_view bytes, Target target) {
  Json view = {{"buffer", 0}, {"byteOffset", bytes_.size()}, {"byteLength", bytes.size()}};
  if (target != Target::none) view["target"] = static_cast<int>(target);
  bytes_ += bytes;
  bytes_.resize((bytes_.size() + 3) / 4 * 4, '\0');
  views_.push_back(std::move(view));
  return static_cast<int>(views_.size()) - 1;
}

int Buffer::vectors(const std::vector<float>& values, int parts, Target target, Bounds bounds) {
  Bytes bytes;
  for (const float value : values) put_word(bytes, std::bit_cast<std::uint32_t>(value));
  const std::size_t count = values.size() / static_cast<std::size_t>(parts);
  Json accessor = {{"bufferView", view(bytes, target)},
                   {"componentType", float_32},
                   {"count", count},
                   {"type", kind(parts)}};
  if (bounds == Bounds::said) {
    Json least = Json::array(), most = Json::array();
    for (int part = 0; part < parts; ++part) {
      float low = values.at(static_cast<std::size_t>(part)), high = low;
      for (std::size_t i = static_cast<std::size_t>(part); i < values.size(); i += parts) {
        low = std::min(low, values[i]);
        high = std::max(high, values[i]);
      }
      least.push_back(low);
      most.push_back(high);
    }
    accessor["min"] = std::move(least);
    accessor["max"] = std::move(most);
  }
  accessors_.push_back(std::move(accessor));
  return static_cast<int>(accessors_.size()) - 1;
}

int Buffer::indices(const std::vector<std::uint32_t>& values, std::size_t vertices) {
  const bool in_16_bits = vertices <= largest_short_index + 1;
  Bytes bytes;
  for (const std::uint32_t value : values) {
    in_16_bits ? put_half(bytes, value) : put_word(bytes, value);
  }
  accessors_.push_back({{"bufferView", view(bytes, Target::indices)},
                        {"componentType", in_16_bits ? unsigned_short : unsigned_int},
                        {"count", values.size()},
                        {"type", "SCALAR"}});
  return static_cast<int>(accessors_.size()) - 1;
}

}  // namespace quoin::gltf
