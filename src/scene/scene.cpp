#include "scene/scene.h"

#include <stdexcept>

#include "scene/parts.h"

namespace quoin {
namespace {

void typeset(std::vector<Item>& items, Typesetter& typesetter) {
  for (Item& item : items) {
    if (auto* group = std::get_if<GroupItem>(&item.what)) {
      typeset(group->items, typesetter);
    } else if (auto* text = std::get_if<TextItem>(&item.what); text && !text->set.state()) {
      text->set = typesetter.set(text->block);
    }
  }
}

void draw_what(const PictureItem& item, Canvas& canvas) {
  canvas.save();
  if (item.crop) canvas.clip(Path::rectangle(item.window));
  canvas.picture(item.picture, item.to);
  canvas.restore();
}

void draw_what(const TextItem& item, Canvas& canvas) {
  if (!item.set.state()) throw std::logic_error("a scene was drawn before its text was set");
  canvas.text(item.set, item.at);
}

void draw_what(const ShapeItem& item, Canvas& canvas) {
  canvas.fill(item.path, item.fill);
  canvas.stroke(item.path, item.stroke);
}

void draw_what(const GroupItem& group, Canvas& canvas) {
  for (const Item& item : group.items) draw(item, canvas);
}

/// The item in its own frame, without its shadow.
void draw_body(const Item& item, Canvas& canvas) {
  if (item.outline) draw_outline(item, *item.outline, canvas);
  draw_content(item, canvas);
}

void draw_shadow(const Item& item, Canvas& canvas) {
  std::optional<Rect> body = content_ink(item);
  if (!body) return;
  if (item.outline) body = grown(*body, item.outline->width);
  canvas.shadow(shadow_in_frame(item), *body, describe(item, body->at),
                [&](Canvas& to) { draw_body(item, to); });
}

}  // namespace

std::string_view to_string(Layer layer) {
  switch (layer) {
    case Layer::cut:
      return "cut";
    case Layer::crease:
      return "crease";
    case Layer::glue:
      return "glue";
    case Layer::bleed:
      return "bleed";
    case Layer::safe:
      return "safe";
    case Layer::dimension:
      return "dimension";
    case Layer::mark:
      return "mark";
    default:
      return "art";
  }
}

void typeset(Scene& scene, Typesetter& typesetter) { typeset(scene.items, typesetter); }

void draw_content(const Item& item, Canvas& canvas) {
  canvas.save();
  if (item.clip) canvas.clip(*item.clip);
  std::visit([&](const auto& what) { draw_what(what, canvas); }, item.what);
  canvas.restore();
}

void draw(const Item& item, Canvas& canvas) {
  if (!(item.opacity > 0)) return;
  const bool as_one = item.opacity < 1;
  canvas.save();
  canvas.transform(item.map);
  if (as_one) canvas.begin_group();
  if (item.shadow) draw_shadow(item, canvas);
  draw_body(item, canvas);
  if (as_one) canvas.end_group(item.opacity);
  canvas.restore();
}

void draw(const Scene& scene, Canvas& canvas) {
  for (const Item& item : scene.items) draw(item, canvas);
}

}  // namespace quoin
