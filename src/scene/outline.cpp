#include <algorithm>
#include <cmath>

#include "scene/parts.h"

namespace quoin {
namespace {

/// A round pen that reaches `reach` to each side of its path.
Stroke pen(Mm reach, Colour colour) {
  Stroke stroke;
  stroke.paint = colour;
  stroke.width = reach * 2;
  stroke.join = LineJoin::round;
  stroke.cap = LineCap::round;
  return stroke;
}

void outline_shape(const ShapeItem& shape, const Outline& outline, Canvas& canvas) {
  const bool has_line = shape.stroke.width > Mm{0} && is_visible(shape.stroke.paint);
  if (!has_line && !is_visible(shape.fill)) return;
  Stroke stroke = pen(outline.width + (has_line ? shape.stroke.width / 2 : Mm{0}), outline.colour);
  if (has_line) stroke.join = shape.stroke.join;
  if (!is_visible(shape.fill)) {
    stroke.dash = shape.stroke.dash;
  } else {
    canvas.fill(shape.path, outline.colour);  // shows through where the shape is not opaque
  }
  canvas.stroke(shape.path, stroke);
}

Mm widest(const std::vector<Stroke>& strokes) {
  Mm width;
  for (const Stroke& stroke : strokes) width = std::max(width, stroke.width);
  return width;
}

bool has_symbols(const TextItem& text) {
  return std::any_of(text.block.runs.begin(), text.block.runs.end(),
                     [](const TextRun& run) { return run.symbol != nullptr; });
}

void outline_text(const TextItem& text, const Outline& outline, Canvas& canvas) {
  const Mm reach = outline.width + widest(text.block.style.strokes) / 2;
  canvas.text_outline(text.set, text.at, pen(reach, outline.colour));
}

bool is_solid(const PictureItem& item) {
  return item.picture && !item.picture->facts().is_vector() && !item.picture->facts().has_alpha;
}

void outline_group(const GroupItem& group, const Outline& outline, Canvas& canvas) {
  for (const Item& item : group.items) {
    if (!(item.opacity > 0)) continue;
    // Widths are the group's; the item's own frame may be scaled.
    const double scale = std::sqrt(std::abs(item.map.determinant()));
    if (!(scale > 0)) continue;
    Outline inside{outline.colour, outline.width / scale};
    if (item.outline) inside.width += item.outline->width;
    canvas.save();
    canvas.transform(item.map);
    draw_outline(item, inside, canvas);
    canvas.restore();
  }
}

void spread(const Item& item, const Outline& outline, Canvas& canvas) {
  const std::optional<Rect> ink = content_ink(item);
  if (!ink) return;
  canvas.spread(outline, *ink, describe(item, ink->at),
                [&](Canvas& to) { draw_content(item, to); });
}

/// The outline of one item, every part of it opaque.
void draw_opaque(const Item& item, const Outline& outline, Canvas& canvas) {
  const auto* shape = std::get_if<ShapeItem>(&item.what);
  const auto* text = std::get_if<TextItem>(&item.what);
  const auto* group = std::get_if<GroupItem>(&item.what);
  const auto* picture = std::get_if<PictureItem>(&item.what);
  if (!item.clip && shape) {
    outline_shape(*shape, outline, canvas);
  } else if (!item.clip && text && !has_symbols(*text)) {
    outline_text(*text, outline, canvas);
  } else if (!item.clip && group) {
    outline_group(*group, outline, canvas);
  } else if (!item.clip && picture && is_solid(*picture)) {
    if (const auto part = shown_part(*picture)) {
      ShapeItem frame{Path::rectangle(*part), black, {}};
      outline_shape(frame, outline, canvas);
    }
  } else {
    spread(item, outline, canvas);
  }
}

}  // namespace

void draw_outline(const Item& item, const Outline& outline, Canvas& canvas) {
  if (!(outline.width > Mm{0}) || !(outline.colour.alpha > 0)) return;
  const double opacity = outline.colour.alpha;
  Outline opaque = outline;
  opaque.colour.alpha = 1;
  if (opacity < 1) canvas.begin_group();
  draw_opaque(item, opaque, canvas);
  if (opacity < 1) canvas.end_group(opacity);
}

}  // namespace quoin
