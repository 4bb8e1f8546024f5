#include "pack/box_pictures.h"

#include <functional>
#include <set>

#include "base/hash.h"
#include "formats/gltf/gltf.h"
#include "formats/png/png.h"
#include "formats/svg/svg.h"
#include "pack/box_model.h"
#include "pack/kept_bytes.h"

namespace quoin::pack {
namespace {

using pieces::BoxPicture;

double ppi_of(const BoxPicture& picture, int width) {
  return width * mm_per_inch / picture.bounds.size.width.value;
}

/// A file whose bytes are made when no earlier run kept them.
struct Wanted {
  std::string path;
  std::function<Bytes(Diagnostics&)> make;
};

Bytes svg_of(const BoxPicture& picture, const std::string& title, PictureShelf& shelf,
             Diagnostics& found) {
  const Drawing drawing{title, picture.bounds, picture.scene};
  return write_svg(drawing, {Layer::art}, shelf).or_report(found).value_or(Bytes{});
}

Bytes png_of(const BoxPicture& picture, PictureShelf& shelf, Diagnostics& found) {
  return write_png(pixels_of(picture, box_picture_pixels, shelf, found),
                   ppi_of(picture, box_picture_pixels));
}

std::vector<Wanted> wanted(const BoxPictureWork& work, PictureShelf& shelf) {
  std::vector<Wanted> files;
  const auto add = [&](const std::string& name, const auto& stage) {
    const auto picture = [&work, stage] { return drawn(stage(work.look.box), work.look); };
    files.push_back({"pictures/" + name + ".png",
                     [=, &shelf](Diagnostics& found) { return png_of(picture(), shelf, found); }});
    files.push_back({"pictures/" + name + ".svg", [=, &shelf, &work](Diagnostics& found) {
                       return svg_of(picture(), work.title, shelf, found);
                     }});
  };
  add("box", pieces::closed_stage);
  add("box-open", pieces::open_stage);
  files.push_back({"box.glb", [&shelf, &work](Diagnostics& found) {
                     return write_glb(
                         box_model(work.look.box, work.look.art, work.title, shelf, found));
                   }});
  return files;
}

}  // namespace

Raster pixels_of(const BoxPicture& picture, int width, PictureShelf& shelf, Diagnostics& found) {
  ImageCanvas image(shelf, picture.bounds.size, ppi_of(picture, width),
                    ImageCanvas::Background::transparent);
  image.canvas().transform(Affine::move(Point{} - picture.bounds.at));
  draw(picture.scene, image.canvas());
  found.insert(found.end(), image.found().begin(), image.found().end());
  return image.raster();
}

std::vector<BoxPictureFile> box_pictures(const BoxPictureWork& work, PictureShelf& shelf,
                                         ImageCache* cache, Diagnostics& found) {
  std::vector<BoxPictureFile> files;
  std::set<std::string> told;  // every file shows the same art
  for (const Wanted& file : wanted(work, shelf)) {
    const std::string name = work.looks.empty() ? std::string{} : sha256(work.looks + file.path);
    std::optional<Bytes> bytes = kept(cache, "box", name);
    if (!bytes) {
      Diagnostics undrawn;
      bytes = file.make(undrawn);
      if (undrawn.empty()) keep(cache, "box", name, *bytes);
      for (Diagnostic& one : undrawn) {
        if (told.insert(one.message).second) found.push_back(std::move(one));
      }
    }
    if (!bytes->empty()) files.push_back({file.path, std::move(*bytes)});
  }
  return files;
}

}  // namespace quoin::pack
