#include "pack/box_model.h"

#include "formats/png/png.h"
#include "pack/box_motion.h"
#include "pack/box_solids.h"
#include "pieces/box/light.h"

namespace quoin::pack {
namespace {

using pieces::NetArt;

/// One side of a net's art as pixels; nothing when nothing is printed on it. `to` is in the frame
/// of the drawing.
std::optional<Bytes> texture(const Scene& scene, Rect to, Colour board, PictureShelf& shelf,
                             Diagnostics& found) {
  if (scene.items.empty()) return std::nullopt;
  constexpr double most_pixels = 4096;
  const double longest = std::max(to.size.width, to.size.height).value / mm_per_inch;
  const double ppi = std::min(texture_ppi, (most_pixels - 1) / longest);
  ImageCanvas image(shelf, to.size, ppi, ImageCanvas::Background::paper);
  image.canvas().fill(Path::rectangle(Rect{{}, to.size}), board);
  image.canvas().transform(Affine::move(Point{} - to.at));
  draw(scene, image.canvas());
  found.insert(found.end(), image.found().begin(), image.found().end());
  return write_png(image.raster(), ppi);
}

gltf::Material surface(std::string name, Colour plain, std::optional<Bytes> art) {
  gltf::Material material;
  material.name = std::move(name);
  material.base = art ? white : plain;
  material.texture = std::move(art);
  return material;
}

/// Adds the materials of a net and says what its solids are made of.
NetSolids materials_of(gltf::Model& model, const fold::Net& net, const NetArt* art,
                       PictureShelf& shelf, Diagnostics& found) {
  NetSolids solids{net, grown(net_rect(net), 1_mm), 0, 0, 0};
  const Rect& to = solids.texture;
  const Rect turned_over{{-to.right(), to.top()}, to.size};
  std::optional<Bytes> printed, inside;
  if (art != nullptr) {
    printed = texture(art->printed, to, pieces::board_outside, shelf, found);
    inside = texture(art->inside, turned_over, pieces::board_inside, shelf, found);
  }
  const auto add = [&](const std::string& what, Colour plain, std::optional<Bytes> pixels) {
    model.materials.push_back(surface(net.name + what, plain, std::move(pixels)));
    return static_cast<int>(model.materials.size()) - 1;
  };
  solids.printed = add(", printed side", pieces::board_outside, std::move(printed));
  solids.inside = add(", inside", pieces::board_inside, std::move(inside));
  solids.edge = add(", edges", pieces::board_edge, {});
  return solids;
}

}  // namespace

gltf::Model box_model(const pieces::Box& box, const std::vector<NetArt>& art,
                      const std::string& title, PictureShelf& shelf, Diagnostics& found) {
  gltf::Model model;
  model.title = title;
  model.creator = "Quoin";
  std::vector<NetSolids> solids;
  for (std::size_t i = 0; i < box.model.parts.size(); ++i) {
    const NetArt* of_net = i < art.size() ? &art[i] : nullptr;
    solids.push_back(materials_of(model, box.model.parts[i].net, of_net, shelf, found));
  }
  model.materials.push_back({"cards", pieces::card_edge, {}, 0.8});
  const int cards = static_cast<int>(model.materials.size()) - 1;
  const BoxParts parts = add_parts(model, box, solids, cards);
  add_folding(model, box, parts);
  return model;
}

}  // namespace quoin::pack
