#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <bit>
#include <cmath>
#include <cstring>
#include <nlohmann/json.hpp>
#include <numbers>
#include <stdexcept>

#include "formats/gltf/gltf.h"
#include "formats/png/png.h"

namespace quoin::gltf {
namespace {

using testing::SizeIs;

/// A lid of one triangle that turns about a base.
Model hinged() {
  Model model;
  model.title = "Hinge";
  model.creator = "Quoin";
  const Bytes png = write_png({1, 1, {0xff336699}}, 300);
  model.materials = {{"Front", white, png, 0.6}, {"Back", Colour{0.5, 0.5, 0.5, 1}, png, 0.8}};
  const Vertex corner{{0, 0, 0}, {0, 0, 2}, 0, 1};
  Vertex right = corner, top = corner;
  right.at = {50, 0, 0};
  right.u = 1;
  top.at = {0, 20, -10};
  top.v = 0;
  const Mesh triangle{{corner, right, top}, {0, 1, 2}, 0};
  const double half = std::sqrt(0.5);
  model.parts = {{"Base", {}, {{1, 0, 0, 0}, {}}, {triangle}},
                 {"Lid", 0, {{}, {0, 20, 0}}, {triangle}}};
  model.animations = {{"Fold",
                       {{1,
                         {{0, {{}, {0, 20, 0}}},
                          {1.5, {{half, 0, 0, half}, {0, 20, 0}}},
                          {2, {{-half, 0, 0, -half}, {0, 20, 0}}}}}}}};
  return model;
}

std::uint32_t word(const Bytes& bytes, std::size_t at) {
  std::uint32_t value = 0;
  for (std::size_t i = 4; i-- > 0;) value = value << 8 | static_cast<unsigned char>(bytes[at + i]);
  return value;
}

/// A .glb taken apart.
struct Opened {
  nlohmann::json json;
  Bytes binary;

  explicit Opened(const Bytes& glb) {
    EXPECT_EQ(glb.substr(0, 4), "glTF");
    EXPECT_EQ(word(glb, 4), 2u);
    EXPECT_EQ(word(glb, 8), glb.size());
    const std::size_t length = word(glb, 12);
    EXPECT_EQ(length % 4, 0u);
    EXPECT_EQ(glb.substr(16, 4), "JSON");
    json = nlohmann::json::parse(glb.substr(20, length));
    EXPECT_EQ(word(glb, 20 + length), glb.size() - 28 - length);
    EXPECT_EQ(glb.substr(24 + length, 4), Bytes("BIN\0", 4));
    binary = glb.substr(28 + length);
  }

  [[nodiscard]] std::vector<float> floats(int accessor) const {
    const auto& facts = json["accessors"][accessor];
    EXPECT_EQ(facts["componentType"], 5126);
    const auto& view = json["bufferViews"][facts["bufferView"].get<int>()];
    std::vector<float> values;
    const auto from = view["byteOffset"].get<std::size_t>();
    for (std::size_t i = 0; i < view["byteLength"].get<std::size_t>(); i += 4) {
      values.push_back(std::bit_cast<float>(word(binary, from + i)));
    }
    return values;
  }
};

TEST(WriteGlb, gives_places_in_metres_with_their_bounds) {
  const Opened glb(write_glb(hinged()));
  const int accessor = glb.json["meshes"][0]["primitives"][0]["attributes"]["POSITION"];
  EXPECT_THAT(glb.floats(accessor), testing::ElementsAre(0, 0, 0, 0.05f, 0, 0, 0, 0.02f, -0.01f));
  const auto& facts = glb.json["accessors"][accessor];
  EXPECT_EQ(facts["min"].get<std::vector<float>>(), (std::vector<float>{0, 0, -0.01f}));
  EXPECT_EQ(facts["max"].get<std::vector<float>>(), (std::vector<float>{0.05f, 0.02f, 0}));
}

TEST(WriteGlb, makes_normals_one_long) {
  const Opened glb(write_glb(hinged()));
  const int accessor = glb.json["meshes"][0]["primitives"][0]["attributes"]["NORMAL"];
  EXPECT_THAT(glb.floats(accessor), testing::ElementsAre(0, 0, 1, 0, 0, 1, 0, 0, 1));
}

TEST(WriteGlb, hangs_parts_on_their_parents) {
  const Opened glb(write_glb(hinged()));
  EXPECT_EQ(glb.json["scenes"][0]["nodes"], nlohmann::json({0}));
  EXPECT_EQ(glb.json["nodes"][0]["children"], nlohmann::json({1}));
  EXPECT_EQ(glb.json["nodes"][0]["rotation"], nlohmann::json({1.0, 0.0, 0.0, 0.0}));
  EXPECT_EQ(glb.json["nodes"][1]["translation"], nlohmann::json({0.0, 0.02, 0.0}));
  EXPECT_FALSE(glb.json["nodes"][1].contains("rotation"));
}

TEST(WriteGlb, holds_a_texture_once_and_bare) {
  const Opened glb(write_glb(hinged()));
  EXPECT_THAT(glb.json["images"], SizeIs(1));
  EXPECT_THAT(glb.json["textures"], SizeIs(1));
  const auto& view = glb.json["bufferViews"][glb.json["images"][0]["bufferView"].get<int>()];
  const Bytes png = glb.binary.substr(view["byteOffset"], view["byteLength"]);
  EXPECT_EQ(png.substr(1, 3), "PNG");
  EXPECT_EQ(png.find("gAMA"), Bytes::npos);
  EXPECT_NE(png.find("IDAT"), Bytes::npos);
}

// Middle grey of sRGB (128 of 255) is 0.2159 of the light: IEC 61966-2-1.
TEST(WriteGlb, gives_base_colours_in_linear_light) {
  Model model = hinged();
  model.materials[1].base = {128 / 255.0, 0, 1, 0.5};
  const Opened glb(write_glb(model));
  const auto& material = glb.json["materials"][1];
  const auto colour =
      material["pbrMetallicRoughness"]["baseColorFactor"].get<std::vector<double>>();
  EXPECT_NEAR(colour[0], 0.2159, 5e-5);
  EXPECT_DOUBLE_EQ(colour[2], 1);
  EXPECT_DOUBLE_EQ(colour[3], 0.5);
  EXPECT_EQ(material["alphaMode"], "BLEND");
}

TEST(WriteGlb, keeps_turns_to_the_shorter_way) {
  const Opened glb(write_glb(hinged()));
  const auto& animation = glb.json["animations"][0];
  EXPECT_EQ(animation["channels"][0]["target"]["path"], "rotation");
  EXPECT_EQ(animation["channels"][0]["target"]["node"], 1);
  const std::vector<float> turns = glb.floats(animation["samplers"][0]["output"]);
  const float half = static_cast<float>(std::sqrt(0.5));
  EXPECT_THAT(turns, testing::ElementsAre(0, 0, 0, 1, half, 0, 0, half, half, 0, 0, half));
  const auto& times = glb.json["accessors"][animation["samplers"][0]["input"].get<int>()];
  EXPECT_EQ(times["max"][0], 2.0);
}

TEST(WriteGlb, counts_vertices_in_16_bits_as_long_as_they_suffice) {
  for (const std::size_t vertices : {std::size_t{65535}, std::size_t{65536}}) {
    Model model = hinged();
    Mesh& mesh = model.parts[0].meshes[0];
    mesh.vertices.resize(vertices, mesh.vertices[0]);
    mesh.triangles[0] = static_cast<std::uint32_t>(vertices - 1);
    const Opened glb(write_glb(model));
    const int indices = glb.json["meshes"][0]["primitives"][0]["indices"];
    EXPECT_EQ(glb.json["accessors"][indices]["componentType"], vertices == 65535 ? 5123 : 5125);
  }
}

TEST(WriteGlb, gives_the_same_bytes_each_time) {
  EXPECT_EQ(write_glb(hinged()), write_glb(hinged()));
}

TEST(WriteGlb, refuses_models_that_are_not_whole) {
  const auto refused = [](auto spoil) {
    Model model = hinged();
    spoil(model);
    EXPECT_THROW((void)write_glb(model), std::logic_error);
  };
  refused([](Model& m) { m.parts.clear(); });
  refused([](Model& m) { m.parts[0].parent = 1; });
  refused([](Model& m) { m.parts[1].parent = 1; });
  refused([](Model& m) { m.parts[0].meshes[0].material = 2; });
  refused([](Model& m) { m.parts[0].meshes[0].triangles[1] = 3; });
  refused([](Model& m) { m.parts[0].meshes[0].triangles.pop_back(); });
  refused([](Model& m) { m.parts[0].meshes[0].vertices[0].normal = {}; });
  refused([](Model& m) { m.parts[0].meshes[0].vertices[0].at.x = std::nan(""); });
  refused([](Model& m) { m.parts[0].placing.turn = {1, 1, 0, 0}; });
  refused([](Model& m) { m.materials[0].texture = "JFIF"; });
  refused([](Model& m) { m.materials[0].texture->resize(60); });
  refused([](Model& m) { m.animations[0].motions[0].part = 2; });
  refused([](Model& m) { m.animations[0].motions[0].frames[1].seconds = 0; });
  refused([](Model& m) { m.animations[0].motions.push_back(m.animations[0].motions[0]); });
}

TEST(TurnOf, gives_back_any_turn) {
  for (const Turn& turn :
       {Turn{}, Turn{1, 0, 0, 0}, Turn{0, 1, 0, 0}, Turn{0, 0, 1, 0}, Turn{0.5, 0.5, 0.5, 0.5},
        Turn{0.1, -0.7, 0.1, 0.7}, Turn{-0.5, 0.5, 0.7, 0.1}}) {
    const double size =
        std::sqrt(turn.x * turn.x + turn.y * turn.y + turn.z * turn.z + turn.w * turn.w);
    const double x = turn.x / size, y = turn.y / size, z = turn.z / size, w = turn.w / size;
    // The matrix of a unit quaternion; a known identity, from memory.
    const Turn found = turn_of({1 - 2 * (y * y + z * z), 2 * (x * y - z * w), 2 * (x * z + y * w),
                                2 * (x * y + z * w), 1 - 2 * (x * x + z * z), 2 * (y * z - x * w),
                                2 * (x * z - y * w), 2 * (y * z + x * w), 1 - 2 * (x * x + y * y)});
    const double alike = found.x * x + found.y * y + found.z * z + found.w * w;
    EXPECT_NEAR(std::abs(alike), 1, 1e-12);
  }
}

TEST(TurnOf, gives_a_quarter_turn_about_x_its_known_quaternion) {
  const Turn turn = turn_of({1, 0, 0, 0, 0, -1, 0, 1, 0});
  EXPECT_NEAR(turn.x, std::sqrt(0.5), 1e-12);
  EXPECT_NEAR(turn.w, std::sqrt(0.5), 1e-12);
}

TEST(TurnOf, refuses_mirrors_and_stretches) {
  EXPECT_THROW((void)turn_of({-1, 0, 0, 0, 1, 0, 0, 0, 1}), std::logic_error);
  EXPECT_THROW((void)turn_of({2, 0, 0, 0, 1, 0, 0, 0, 1}), std::logic_error);
}

}  // namespace
}  // namespace quoin::gltf
