#include <cmath>
#include <map>

#include "formats/clean_text.h"
#include "formats/gltf/buffer.h"
#include "formats/gltf/gltf.h"
#include "formats/gltf/soundness.h"
#include "formats/gltf/texture.h"

namespace quoin {
namespace gltf {
namespace {

constexpr double mm_per_metre = 1000;

void put(std::vector<float>& to, std::initializer_list<double> parts) {
  for (const double part : parts) to.push_back(static_cast<float>(part));
}

void put_place(std::vector<float>& to, Space at) {
  put(to, {at.x / mm_per_metre, at.y / mm_per_metre, at.z / mm_per_metre});
}

/// sRGB to the linear light in which glTF gives factors (IEC 61966-2-1).
double linear(double part) {
  return part <= 0.04045 ? part / 12.92 : std::pow((part + 0.055) / 1.055, 2.4);
}

/// Adds a value and gives its number; gives the number of an equal one that is there already.
int index_in(Json& list, const Json& value) {
  for (std::size_t i = 0; i < list.size(); ++i) {
    if (list[i] == value) return static_cast<int>(i);
  }
  list.push_back(value);
  return static_cast<int>(list.size()) - 1;
}

/// One file while it is put together.
class GlbWriter {
 public:
  explicit GlbWriter(const Model& model) : model_(model) {}

  [[nodiscard]] Bytes written() {
    Json json;
    json["asset"] = asset();
    json["scene"] = 0;
    json["scenes"] = Json::array({scene()});
    json["nodes"] = nodes();
    if (!meshes_.empty()) json["meshes"] = meshes_;
    if (Json made = materials(); !made.empty()) json["materials"] = made;
    put_textures(json);
    if (Json made = animations(); !made.empty()) json["animations"] = made;
    if (buffer_.bytes().empty()) return file(json.dump());
    json["accessors"] = buffer_.accessors();
    json["bufferViews"] = buffer_.views();
    json["buffers"] = Json::array({{{"byteLength", buffer_.bytes().size()}}});
    return file(json.dump());
  }

 private:
  [[nodiscard]] Json asset() const {
    Json asset = {{"version", "2.0"}};
    if (!model_.creator.empty()) asset["generator"] = clean_text(model_.creator);
    if (!model_.author.empty()) asset["copyright"] = clean_text(model_.author);
    return asset;
  }

  [[nodiscard]] Json scene() const {
    Json roots = Json::array();
    for (std::size_t i = 0; i < model_.parts.size(); ++i) {
      if (!model_.parts[i].parent) roots.push_back(i);
    }
    Json scene;
    if (!model_.title.empty()) scene["name"] = clean_text(model_.title);
    scene["nodes"] = roots;
    return scene;
  }

  [[nodiscard]] Json nodes() {
    Json nodes = Json::array();
    for (const Part& part : model_.parts) nodes.push_back(node(part));
    for (std::size_t i = 0; i < model_.parts.size(); ++i) {
      if (const auto parent = model_.parts[i].parent) {
        nodes[static_cast<std::size_t>(*parent)]["children"].push_back(i);
      }
    }
    return nodes;
  }

  [[nodiscard]] Json node(const Part& part) {
    Json node = Json::object();
    if (!part.name.empty()) node["name"] = clean_text(part.name);
    const auto& [turn, move] = part.placing;
    if (turn != Turn{}) node["rotation"] = {turn.x, turn.y, turn.z, turn.w};
    if (move != Space{}) {
      node["translation"] = {move.x / mm_per_metre, move.y / mm_per_metre, move.z / mm_per_metre};
    }
    if (!part.meshes.empty()) node["mesh"] = mesh(part);
    return node;
  }

  [[nodiscard]] std::size_t mesh(const Part& part) {
    Json primitives = Json::array();
    for (const Mesh& each : part.meshes) primitives.push_back(primitive(each));
    Json mesh;
    if (!part.name.empty()) mesh["name"] = clean_text(part.name);
    mesh["primitives"] = primitives;
    meshes_.push_back(mesh);
    return meshes_.size() - 1;
  }

  [[nodiscard]] Json primitive(const Mesh& mesh) {
    std::vector<float> places, normals, texture;
    for (const Vertex& vertex : mesh.vertices) {
      const Space n = vertex.normal;
      const double length = std::hypot(n.x, n.y, n.z);
      put_place(places, vertex.at);
      put(normals, {n.x / length, n.y / length, n.z / length});
      put(texture, {vertex.u, vertex.v});
    }
    using enum Buffer::Bounds;
    Json attributes;
    attributes["POSITION"] = buffer_.vectors(places, 3, Target::vertices, said);
    attributes["NORMAL"] = buffer_.vectors(normals, 3, Target::vertices, left_out);
    if (model_.materials[static_cast<std::size_t>(mesh.material)].texture) {
      attributes["TEXCOORD_0"] = buffer_.vectors(texture, 2, Target::vertices, left_out);
    }
    return {{"attributes", attributes},
            {"indices", buffer_.indices(mesh.triangles, mesh.vertices.size())},
            {"material", mesh.material}};
  }

  [[nodiscard]] Json materials() {
    Json materials = Json::array();
    for (const Material& material : model_.materials) {
      const Colour c = material.base;
      Json surface;
      surface["baseColorFactor"] = {linear(c.red), linear(c.green), linear(c.blue), c.alpha};
      if (material.texture) surface["baseColorTexture"] = {{"index", texture(*material.texture)}};
      surface["metallicFactor"] = 0;
      surface["roughnessFactor"] = material.roughness;
      Json made;
      if (!material.name.empty()) made["name"] = clean_text(material.name);
      made["pbrMetallicRoughness"] = surface;
      if (c.alpha < 1) made["alphaMode"] = "BLEND";
      materials.push_back(made);
    }
    return materials;
  }

  [[nodiscard]] int texture(const Bytes& png) {
    const auto [known, is_new] = views_of_.try_emplace(bare_png(png), 0);
    if (is_new) known->second = buffer_.view(known->first, Target::none);
    const int image = index_in(images_, {{"bufferView", known->second}, {"mimeType", "image/png"}});
    return index_in(textures_, {{"sampler", 0}, {"source", image}});
  }

  void put_textures(Json& json) const {
    if (textures_.empty()) return;
    // Linear with mipmaps when smaller, linear when larger; no repeats (glTF 2.0, 5.26).
    json["samplers"] = Json::array(
        {{{"magFilter", 9729}, {"minFilter", 9987}, {"wrapS", 33071}, {"wrapT", 33071}}});
    json["images"] = images_;
    json["textures"] = textures_;
  }

  [[nodiscard]] Json animations() {
    Json animations = Json::array();
    for (const Animation& animation : model_.animations) {
      Json samplers = Json::array(), channels = Json::array();
      for (const Motion& motion : animation.motions) put_motion(motion, samplers, channels);
      Json made;
      if (!animation.name.empty()) made["name"] = clean_text(animation.name);
      made["channels"] = channels;
      made["samplers"] = samplers;
      animations.push_back(made);
    }
    return animations;
  }

  void put_motion(const Motion& motion, Json& samplers, Json& channels) {
    std::vector<float> times, turns, moves, scales;
    Turn before;
    bool is_scaled = false;
    for (const Keyframe& frame : motion.frames) {
      put(times, {frame.seconds});
      Turn t = frame.placing.turn;  // the quaternion and its negative are the same turn
      if (before.x * t.x + before.y * t.y + before.z * t.z + before.w * t.w < 0) {
        t = {-t.x, -t.y, -t.z, -t.w};
      }
      put(turns, {t.x, t.y, t.z, t.w});
      put_place(moves, frame.placing.move);
      put(scales, {frame.scale, frame.scale, frame.scale});
      is_scaled = is_scaled || frame.scale != 1;
      before = t;
    }
    using enum Buffer::Bounds;
    const int input = buffer_.vectors(times, 1, Target::none, said);
    const auto channel = [&](const char* what, int output) {
      channels.push_back(
          {{"sampler", samplers.size()}, {"target", {{"node", motion.part}, {"path", what}}}});
      samplers.push_back({{"input", input}, {"interpolation", "LINEAR"}, {"output", output}});
    };
    channel("rotation", buffer_.vectors(turns, 4, Target::none, left_out));
    channel("translation", buffer_.vectors(moves, 3, Target::none, left_out));
    if (is_scaled) channel("scale", buffer_.vectors(scales, 3, Target::none, left_out));
  }

  /// Header and chunks (glTF 2.0, 4.4).
  [[nodiscard]] Bytes file(std::string json) const {
    constexpr std::uint32_t magic = 0x46546c67, version = 2;  // "glTF"
    constexpr std::uint32_t json_chunk = 0x4e4f534a, binary_chunk = 0x004e4942;
    json.resize((json.size() + 3) / 4 * 4, ' ');
    const Bytes& binary = buffer_.bytes();
    const std::size_t length = 12 + 8 + json.size() + (binary.empty() ? 0 : 8 + binary.size());
    Bytes file;
    for (const std::uint32_t word : {magic, version, static_cast<std::uint32_t>(length),
                                     static_cast<std::uint32_t>(json.size()), json_chunk}) {
      put_word(file, word);
    }
    file += json;
    if (binary.empty()) return file;
    put_word(file, static_cast<std::uint32_t>(binary.size()));
    put_word(file, binary_chunk);
    return file + binary;
  }

  const Model& model_;
  Buffer buffer_;
  Json meshes_ = Json::array(), images_ = Json::array(), textures_ = Json::array();
  std::map<Bytes, int> views_of_;  ///< a texture's bytes -> its view
};

}  // namespace
}  // namespace gltf

Bytes write_glb(const gltf::Model& model) {
  gltf::expect_whole(model);
  return gltf::GlbWriter(model).written();
}

}  // namespace quoin
