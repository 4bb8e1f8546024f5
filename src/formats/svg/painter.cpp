#include "formats/svg/painter.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <stdexcept>

#include "formats/decimal.h"
#include "formats/svg/hard_shadow.h"
#include "formats/svg/markup.h"
#include "scene/parts.h"

namespace quoin::svg {
namespace {

constexpr double made_ppi = 600;
constexpr double most_pixels = 40e6;  // an A4 page at 600 ppi is 35 million

/// <g ...>inner</g>, or `inner` alone when there is nothing to say about it.
std::string grouped(const std::string& attributes, std::string inner) {
  if (attributes.empty() || inner.empty()) return inner;
  return "<g" + attributes + ">\n" + inner + "</g>\n";
}

std::string opacity_attribute(double opacity) {
  return opacity < 1 ? fmt::format(" opacity=\"{}\"", decimal(opacity, 4)) : std::string{};
}

bool is_line(const Stroke& stroke) { return stroke.width > Mm{0} && is_visible(stroke.paint); }

Mm widest(const std::vector<Stroke>& strokes) {
  Mm width;
  for (const Stroke& stroke : strokes) width = std::max(width, stroke.width);
  return width;
}

const SetText& set_text(const TextItem& item) {
  if (!item.set.state()) throw std::logic_error("a scene was written before its text was set");
  return item.set;
}

}  // namespace

std::string Painter::shape(const Path& path, const Paint& fill, const Stroke& stroke) {
  if (path.empty() || (!is_visible(fill) && !is_line(stroke))) return {};
  const std::string filled = definitions_.paint("fill", is_visible(fill) ? fill : NoPaint{});
  return fmt::format("<path d=\"{}\"{}{}/>\n", path_data(path), filled,
                     is_line(stroke) ? definitions_.stroke(stroke) : "");
}

std::string Painter::what(const PictureItem& item) {
  const std::string shown = definitions_.picture(item.picture, item.to, found_);
  return grouped(item.crop ? definitions_.clip(Path::rectangle(item.window)) : "", shown);
}

std::string Painter::what(const TextItem& item) {
  const TextParts parts = parts_of(set_text(item));
  std::string text;
  for (const Stroke& stroke : item.block.style.strokes) {
    text += shape(parts.letters, NoPaint{}, stroke);
  }
  text += shape(parts.letters, item.block.style.fill, {});
  for (const TextParts::Symbol& symbol : parts.symbols) {
    text += definitions_.picture(symbol.picture, symbol.to, found_);
  }
  return grouped(transform_attribute(Affine::move(item.at - Point{})), text);
}

std::string Painter::what(const ShapeItem& item) {
  return shape(item.path, item.fill, item.stroke);
}

std::string Painter::what(const GroupItem& group) {
  std::string text;
  for (const Item& item : group.items) text += painted(item);
  return text;
}

std::string Painter::content(const Item& item) {
  const std::string text = std::visit([&](const auto& each) { return what(each); }, item.what);
  return grouped(item.clip ? definitions_.clip(*item.clip) : "", text);
}

std::string Painter::pixels(Rect area, const std::function<void(Canvas&)>& draw) {
  const double square_inches = area.size.width / Mm{mm_per_inch} * (area.size.height / Mm{25.4});
  if (!(square_inches > 0)) return {};
  const double ppi = std::min(made_ppi * scale_, std::sqrt(most_pixels / square_inches));
  ImageCanvas canvas(shelf_, area.size, ppi, ImageCanvas::Background::transparent);
  canvas.canvas().transform(Affine::move(Point{} - area.at));
  draw(canvas.canvas());
  found_.insert(found_.end(), canvas.found().begin(), canvas.found().end());
  const Raster raster = canvas.raster();
  const Size covered{Mm{raster.width * mm_per_inch / ppi}, Mm{raster.height * mm_per_inch / ppi}};
  return definitions_.pixels(raster, {area.at, covered});
}

/// Round shapes and letters a line beneath them; round anything else what the canvas makes of it.
std::string Painter::outline(const Item& item) {
  const Outline& wanted = *item.outline;
  if (!(wanted.width > Mm{0}) || !(wanted.colour.alpha > 0)) return {};
  Stroke stroke;
  stroke.cap = LineCap::round;
  Colour solid = wanted.colour;
  solid.alpha = 1;
  stroke.paint = solid;
  const auto* each = std::get_if<ShapeItem>(&item.what);
  const auto* text = std::get_if<TextItem>(&item.what);
  if (!item.clip && each) {
    const bool filled = is_visible(each->fill), lined = is_line(each->stroke);
    if (!filled && !lined) return {};
    stroke.width = wanted.width * 2 + (lined ? each->stroke.width : Mm{0});
    if (lined) stroke.join = each->stroke.join;
    if (!filled) stroke.dash = each->stroke.dash;
    return grouped(opacity_attribute(wanted.colour.alpha),
                   shape(each->path, filled ? Paint{solid} : NoPaint{}, stroke));
  }
  if (!item.clip && text && parts_of(set_text(*text)).symbols.empty()) {
    stroke.width = wanted.width * 2 + widest(text->block.style.strokes);
    return grouped(transform_attribute(Affine::move(text->at - Point{})) +
                       opacity_attribute(wanted.colour.alpha),
                   shape(parts_of(text->set).letters, NoPaint{}, stroke));
  }
  const std::optional<Rect> ink = content_ink(item);
  if (!ink) return {};
  return pixels(grown(*ink, wanted.width + 0.2_mm),
                [&](Canvas& canvas) { draw_outline(item, wanted, canvas); });
}

std::string Painter::shadow(const Item& item) {
  std::optional<Rect> ink = content_ink(item);
  if (!ink) return {};
  if (item.outline) ink = grown(*ink, item.outline->width);
  const Shadow thrown = shadow_in_frame(item);
  if (!(thrown.blur > Mm{0})) {
    Colour solid = thrown.colour;
    solid.alpha = 1;
    if (const std::optional<Item> flat = silhouette_of(item, solid)) {
      return grouped(
          transform_attribute(Affine::move(thrown.offset)) + opacity_attribute(thrown.colour.alpha),
          body(*flat));
    }
  }
  const Rect moved{ink->at + thrown.offset, ink->size};
  // The soft edge ends three deviations, one and a half blurs, from the silhouette.
  return pixels(grown(moved, thrown.blur * 1.5 + 0.2_mm), [&](Canvas& canvas) {
    canvas.shadow(thrown, *ink, describe(item, ink->at), [&](Canvas& to) {
      if (item.outline) draw_outline(item, *item.outline, to);
      draw_content(item, to);
    });
  });
}

std::string Painter::body(const Item& item) {
  std::string text;
  if (item.shadow && item.shadow->colour.alpha > 0) text += shadow(item);
  if (item.outline) text += outline(item);
  return text + content(item);
}

std::string Painter::painted(const Item& item) {
  const double factor = std::sqrt(std::abs(item.map.determinant()));
  if (!(item.opacity > 0) || !(factor > 0)) return {};
  const double outer = scale_;
  scale_ *= factor;
  const std::string text =
      grouped(transform_attribute(item.map) + opacity_attribute(item.opacity), body(item));
  scale_ = outer;
  return text;
}

}  // namespace quoin::svg
