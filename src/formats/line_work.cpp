#include "formats/line_work.h"

#include <cmath>
#include <stdexcept>

namespace quoin {
namespace {

[[noreturn]] void refuse(const char* what) {
  throw std::logic_error(std::string("line work holds no ") + what);
}

std::optional<Colour> flat_colour(const Paint& paint, double opacity) {
  if (std::holds_alternative<NoPaint>(paint)) return std::nullopt;
  if (!std::holds_alternative<Colour>(paint)) refuse("gradients");
  Colour colour = std::get<Colour>(paint);
  colour.alpha *= opacity;
  if (!(colour.alpha > 0)) return std::nullopt;
  return colour;
}

/// Gathers the lines of one item and of all that it holds.
class LineGatherer {
 public:
  void gather(const Item& item, const Affine& outer, double outer_opacity) {
    if (item.clip) refuse("clips");
    if (item.shadow || item.outline) refuse("shadows and outlines");
    if (!(item.opacity > 0)) return;
    const Affine map = then(item.map, outer);
    const double opacity = std::min(item.opacity, 1.0) * outer_opacity;
    std::visit([&](const auto& what) { add(what, map, opacity); }, item.what);
  }
  std::vector<DrawnLine> found;

 private:
  void add(const PictureItem&, const Affine&, double) { refuse("pictures"); }

  void add(const GroupItem& group, const Affine& map, double opacity) {
    for (const Item& item : group.items) gather(item, map, opacity);
  }

  void add(const ShapeItem& shape, const Affine& map, double opacity) {
    add(shape.path, shape.fill, shape.stroke, map, opacity);
  }

  void add(const TextItem& text, const Affine& map, double opacity) {
    if (!text.set.state()) throw std::logic_error("a scene was written before its text was set");
    const TextParts parts = parts_of(text.set);
    if (!parts.symbols.empty()) refuse("pictures");
    const Affine at = then(Affine::move(text.at - Point{}), map);
    for (const Stroke& stroke : text.block.style.strokes) {
      add(parts.letters, NoPaint{}, stroke, at, opacity);
    }
    add(parts.letters, text.block.style.fill, {}, at, opacity);
  }

  void add(const Path& path, const Paint& fill, const Stroke& stroke, const Affine& map,
           double opacity) {
    const double scale = std::sqrt(std::abs(map.determinant()));
    DrawnLine line{
        mapped(path, map), flat_colour(fill, opacity), {}, stroke.width * scale, {}, stroke.join,
        stroke.cap};
    if (stroke.width > Mm{0}) line.line = flat_colour(stroke.paint, opacity);
    for (const Mm part : stroke.dash) line.dash.push_back(part * scale);
    if (!path.empty() && (line.fill || line.line)) found.push_back(std::move(line));
  }
};

}  // namespace

bool is_line_work(Layer layer) { return layer != Layer::art && layer != Layer::mark; }

std::vector<DrawnLine> line_work(const Item& item) {
  LineGatherer gatherer;
  gatherer.gather(item, {}, 1);
  return std::move(gatherer.found);
}

}  // namespace quoin
