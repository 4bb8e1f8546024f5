#include <fmt/format.h>

#include <stdexcept>

#include "formats/clean_text.h"
#include "formats/line_work.h"
#include "formats/svg/markup.h"
#include "formats/svg/painter.h"
#include "formats/svg/svg.h"

namespace quoin {
namespace svg {
namespace {

constexpr Mm hairline{0.1};  // a machine follows the middle of a line, whatever its width

/// Layers that a machine follows; a dimension is read by people.
bool is_followed(Layer layer) { return is_line_work(layer) && layer != Layer::dimension; }

std::string title(Layer layer) {
  switch (layer) {
    case Layer::art:
      return "Artwork";
    case Layer::cut:
      return "Cut along these lines";
    case Layer::crease:
      return "Crease along these lines";
    case Layer::glue:
      return "Glue goes here";
    case Layer::bleed:
      return "Ink reaches out to here";
    case Layer::safe:
      return "What matters stays within";
    case Layer::dimension:
      return "Dimensions in millimetres";
    case Layer::mark:
      return "Marks";
  }
  return {};
}

std::string followed(const Item& item, const Affine& to_page, Definitions& definitions) {
  std::string text;
  for (const DrawnLine& line : line_work(item)) {
    Stroke stroke;
    stroke.paint = line.line ? *line.line : *line.fill;
    std::get<Colour>(stroke.paint).alpha = 1;
    stroke.width = line.line ? std::min(line.width, hairline) : hairline;
    text += fmt::format("<path d=\"{}\" fill=\"none\"{}/>\n", path_data(mapped(line.path, to_page)),
                        definitions.stroke(stroke));
  }
  return text;
}

/// The groups of one drawing, and what they need defined.
class SvgLayers {
 public:
  SvgLayers(const Drawing& drawing, PictureShelf& shelf)
      : drawing_(drawing), definitions_(shelf), painter_(definitions_, shelf) {}

  [[nodiscard]] std::string group(Layer layer) {
    const Affine to_page = Affine::move(Point{} - drawing_.bounds.at);
    std::string inner;
    bool used = false;
    for (const Item& item : drawing_.scene.items) {
      if (item.layer != layer) continue;
      used = true;
      inner += is_followed(layer) ? followed(item, to_page, definitions_) : painter_.painted(item);
    }
    if (!used) return {};
    return fmt::format("<g id=\"{}\"{}>\n<title>{}</title>\n{}</g>\n", to_string(layer),
                       is_followed(layer) ? "" : transform_attribute(to_page), title(layer), inner);
  }

  [[nodiscard]] std::string definitions() const { return definitions_.markup(); }
  [[nodiscard]] const Diagnostics& found() const { return painter_.found(); }

 private:
  const Drawing& drawing_;
  Definitions definitions_;
  Painter painter_;
};

std::string head(const Drawing& drawing) {
  const std::string width = length_text(drawing.bounds.size.width);
  const std::string height = length_text(drawing.bounds.size.height);
  std::string text = fmt::format(
      "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
      "<svg xmlns=\"http://www.w3.org/2000/svg\" xmlns:xlink=\"http://www.w3.org/1999/xlink\""
      " version=\"1.1\" width=\"{0}mm\" height=\"{1}mm\" viewBox=\"0 0 {0} {1}\">\n",
      width, height);
  if (!drawing.title.empty()) text += "<title>" + escaped_for_xml(drawing.title) + "</title>\n";
  return text;
}

}  // namespace
}  // namespace svg

Result<Bytes> write_svg(const Drawing& drawing, const LayerSet& layers, PictureShelf& shelf) {
  const Size size = drawing.bounds.size;
  if (!(size.width > Mm{0}) || !(size.height > Mm{0})) {
    throw std::logic_error("a drawing without size");
  }
  svg::SvgLayers groups(drawing, shelf);
  std::string body;
  for (const Layer layer : layers) body += groups.group(layer);
  if (any_errors(groups.found())) return groups.found();
  return svg::head(drawing) + groups.definitions() + body + "</svg>\n";
}

}  // namespace quoin
