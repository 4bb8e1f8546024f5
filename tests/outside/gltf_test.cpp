#include "formats/gltf/gltf.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <filesystem>
#include <stdexcept>

#include "formats/png/png.h"
#include "pack/box_model.h"
#include "pieces/box/light.h"
#include "programs.h"

namespace quoin::outside {
namespace {

using testing::HasSubstr;

Bytes picture() {
  Raster raster{300, 200, std::vector<std::uint32_t>(60000, 0xffe0c080)};
  for (std::size_t i = 0; i < raster.pixels.size(); i += 7) raster.pixels[i] = 0xff204060;
  return write_png(raster, 300);
}

/// A plate 50 x 40 mm and 0.4 thick: six faces with corners of their own.
gltf::Mesh plate(int material) {
  gltf::Mesh mesh;
  mesh.material = material;
  const double size[3] = {50, 40, 0.4};
  for (int axis = 0; axis < 3; ++axis) {
    for (const int side : {0, 1}) {
      const auto first = static_cast<std::uint32_t>(mesh.vertices.size());
      for (const auto& [s, t] : {std::pair{0, 0}, {1, 0}, {1, 1}, {0, 1}}) {
        double at[3], normal[3] = {0, 0, 0};
        at[axis] = side * size[axis];
        at[(axis + 1) % 3] = s * size[(axis + 1) % 3];
        at[(axis + 2) % 3] = t * size[(axis + 2) % 3];
        normal[axis] = side == 1 ? 1 : -1;
        mesh.vertices.push_back({{at[0], at[1], at[2]},
                                 {normal[0], normal[1], normal[2]},
                                 static_cast<double>(s),
                                 static_cast<double>(t)});
      }
      for (const std::uint32_t corner : {0u, 1u, 2u, 0u, 2u, 3u}) {
        mesh.triangles.push_back(first + (side == 1 ? corner : 3 - corner));
      }
    }
  }
  return mesh;
}

/// Two plates that fold about an edge, with art on one.
gltf::Model folding() {
  gltf::Model model;
  model.title = "Fold — try";
  model.author = "A maker";
  model.creator = "Quoin";
  model.materials = {{"Art", white, picture(), 0.7},
                     {"Board", Colour{0.9, 0.88, 0.85, 1}, {}, 0.9},
                     {"Film", Colour{1, 1, 1, 0.4}, {}, 0.2}};
  model.parts = {{"Box", {}, {{1, 0, 0, 0}, {}}, {}},
                 {"Front", 0, {}, {plate(0), plate(1)}},
                 {"Lid", 1, {{}, {0, 40, 0}}, {plate(2)}}};
  const double half = std::sqrt(0.5);
  model.animations = {
      {"Fold", {{2, {{0, {{}, {0, 40, 0}}}, {1, {{half, 0, 0, half}, {0, 40, 0}}}}}}}};
  return model;
}

/// What the validator of the standard's makers (Khronos) says of a file.
std::string said_of(const Bytes& glb) {
  if (!std::filesystem::exists(QUOIN_NODE_PACKAGES "/gltf-validator")) {
    throw std::runtime_error("this check needs the npm packages that ./run test installs");
  }
  const Folder folder;
  return run({"node", QUOIN_SOURCE_DIR "/tests/outside/readers/gltf_faults.cjs",
              QUOIN_NODE_PACKAGES, folder.put("box.glb", glb)})
      .words;
}

TEST(GltfElsewhere, gives_the_validator_of_the_standard_nothing_to_warn_of) {
  const std::string said = said_of(write_glb(folding()));
  // The one note is about readers of 2011 (WebGL 1.0); glTF 2.0 itself allows any size.
  EXPECT_EQ(said,
            "IMAGE_NPOT_DIMENSIONS /images/0 Image has non-power-of-two dimensions: 300x200.\n"
            "errors 0 warnings 0 infos 1 hints 0\n"
            "animations 1 materials 3 triangles 36 vertices 72\n");
}

TEST(GltfElsewhere, gives_it_nothing_to_warn_of_in_bare_parts_either) {
  gltf::Model model;
  model.parts.push_back({"Nothing", {}, {}, {}});
  const std::string said = said_of(write_glb(model));
  EXPECT_THAT(said, HasSubstr("errors 0 warnings 0"));
}

/// A box for 72 cards with a picture on every net, inside and out.
gltf::Model folding_box(const pieces::BoxKind& kind) {
  game::BoxWishes wishes;
  wishes.kind = std::string(kind.word);
  const pieces::Contents contents{72, {Mm{63}, Mm{88}}, {}};
  const pieces::Box box = *pieces::make_box(wishes, contents).value;
  std::vector<pieces::NetArt> art(box.model.parts.size());
  for (pieces::NetArt& net : art) {
    net.printed.items.push_back(pieces::filled(Path::ellipse({{Mm{-9}, Mm{-9}}, {Mm{90}, Mm{90}}}),
                                               Colour{0.1, 0.4, 0.5, 1}));
    net.inside = net.printed;
  }
  const MemoryWorld world;
  PictureShelf shelf(world);
  Diagnostics found;
  return pack::box_model(box, art, "Tidewrack", shelf, found);
}

TEST(GltfElsewhere, gives_it_nothing_to_warn_of_in_any_folding_box) {
  for (const pieces::BoxKind& kind : pieces::box_kinds()) {
    const gltf::Model model = folding_box(kind);
    const std::string said = said_of(write_glb(model));
    EXPECT_THAT(said, HasSubstr("errors 0 warnings 0")) << kind.word << said;
    EXPECT_THAT(said, HasSubstr("animations " + std::to_string(model.animations.size())));
  }
}

TEST(GltfElsewhere, is_told_apart_from_a_damaged_file) {
  Bytes glb = write_glb(folding());
  const std::size_t at = glb.find("\"VEC3\"");
  ASSERT_NE(at, Bytes::npos);
  glb[at + 4] = '2';
  EXPECT_EQ(said_of(glb).find("errors 0"), std::string::npos);
}

}  // namespace
}  // namespace quoin::outside
