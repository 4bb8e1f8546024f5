#include "scene/low_ink.h"

#include <algorithm>
#include <cmath>

#include "scene/parts.h"

namespace quoin {
namespace {

constexpr Mm outline_width{0.25};
constexpr Mm light_outline_width{0.18};

template <typename Change>
Paint changed(const Paint& paint, const Change& change) {
  Paint result = paint;
  const auto stops = [&](std::vector<GradientStop>& all) {
    for (GradientStop& stop : all) stop.colour = change(stop.colour);
  };
  if (auto* colour = std::get_if<Colour>(&result)) *colour = change(*colour);
  if (auto* linear = std::get_if<LinearGradient>(&result)) stops(linear->stops);
  if (auto* radial = std::get_if<RadialGradient>(&result)) stops(radial->stops);
  return result;
}

/// The colour that a paint is taken for: its own, or that in the middle of a gradient.
std::optional<Colour> main_colour(const Paint& paint) {
  if (const auto* colour = std::get_if<Colour>(&paint)) return *colour;
  const auto middle = [](const std::vector<GradientStop>& stops) -> std::optional<Colour> {
    if (stops.empty()) return std::nullopt;
    return stops[stops.size() / 2].colour;
  };
  if (const auto* linear = std::get_if<LinearGradient>(&paint)) return middle(linear->stops);
  if (const auto* radial = std::get_if<RadialGradient>(&paint)) return middle(radial->stops);
  return std::nullopt;
}

bool is_light(Colour colour) { return relative_luminance(colour) > 0.6; }

void draw_round(ShapeItem& shape, Colour colour, Mm width) {
  shape.stroke.paint = colour;
  shape.stroke.width = width;
}

double area(Rect r) { return r.size.width.value * r.size.height.value; }

/// What the item covers in its own frame; texts may be unset, so they count by their box.
std::optional<Rect> covered(const Item& item) {
  std::optional<Rect> place;
  if (const auto* text = std::get_if<TextItem>(&item.what)) {
    place = Rect{text->at, text->block.box};
  } else if (const auto* shape = std::get_if<ShapeItem>(&item.what)) {
    if (!shape->path.empty()) place = bounds(shape->path);
  } else if (const auto* picture = std::get_if<PictureItem>(&item.what)) {
    place = shown_part(*picture);
  }
  if (place && item.clip) place = overlap(*place, bounds(*item.clip));
  return place;
}

bool contains(Rect r, Point p) {
  return p.x >= r.left() && p.x <= r.right() && p.y >= r.top() && p.y <= r.bottom();
}

}  // namespace

double flood_area(Size piece) { return piece.width.value * piece.height.value / 20; }

/// Where an item lies on the scene, and whether it is a flood there.
struct LowInk::Spot {
  Rect place;
  bool is_large = false;
};

/// The way through one scene.
struct LowInk::Walk {
  struct Ground {
    Rect place;
    enum class Is { lightened, light, kept } is = Is::kept;
  };
  std::optional<Rect> inside;   // where outlines are drawn
  std::vector<Ground> grounds;  // in the order in which they are drawn

  /// What lies under a place: the uppermost thing that covers its middle.
  [[nodiscard]] Ground::Is under(Rect place) const {
    const auto found = std::find_if(grounds.rbegin(), grounds.rend(), [&](const Ground& one) {
      return contains(one.place, place.centre());
    });
    return found == grounds.rend() ? Ground::Is::light : found->is;
  }
};

PicturePtr LowInk::light(const PicturePtr& picture) {
  const auto [known, is_new] = pictures_.try_emplace(picture->key());
  if (is_new) known->second = in_light_inks(*picture);
  return known->second;
}

void LowInk::change(ShapeItem& shape, const Spot& spot, Walk& walk) {
  using Is = Walk::Ground::Is;
  const std::optional<Colour> fill = main_colour(shape.fill);
  const bool has_line = shape.stroke.width > Mm{0};
  const Is under = walk.under(spot.place);
  if (!is_visible(shape.fill)) {
    if (has_line && under == Is::lightened) {
      shape.stroke.paint = changed(shape.stroke.paint, line_on_light);
    }
    return;
  }
  walk.grounds.push_back({spot.place, is_light(*fill) ? Is::light
                                      : spot.is_large ? Is::lightened
                                                      : Is::kept});
  if (!spot.is_large) {
    // What is light would be lost on a ground that is light now.
    const bool would_vanish = is_light(*fill) && under == Is::lightened && !has_line;
    if (would_vanish) draw_round(shape, line_on_light(*fill), light_outline_width);
    return;
  }
  if (has_line) {
    shape.stroke.paint = changed(shape.stroke.paint, line_on_light);
  } else if (!is_light(*fill) && walk.inside && lies_in(spot.place, *walk.inside)) {
    draw_round(shape, *fill, outline_width);
  }
  shape.fill = changed(shape.fill, [](Colour c) { return lightened(c); });
}

void LowInk::change(TextItem& text, const Spot& spot, Walk& walk) {
  const bool has_lines = !text.block.style.strokes.empty();
  if (has_lines || walk.under(spot.place) != Walk::Ground::Is::lightened) return;
  text.block.style.fill = changed(text.block.style.fill, legible_on_light);
  text.set = SetText{};
}

void LowInk::change(Item& item, const Affine& map, Walk& walk) {
  const Affine all = then(item.map, map);
  if (auto* group = std::get_if<GroupItem>(&item.what)) return change(group->items, all, walk);
  const std::optional<Rect> own = covered(item);
  if (!own) return;
  const bool is_large = area(*own) * std::abs(all.determinant()) >= large_area_;
  const Spot spot{bounds(all, *own), is_large};
  if (is_large && !std::holds_alternative<TextItem>(item.what)) item.shadow.reset();
  if (auto* shape = std::get_if<ShapeItem>(&item.what)) return change(*shape, spot, walk);
  if (auto* text = std::get_if<TextItem>(&item.what)) return change(*text, spot, walk);
  auto& picture = std::get<PictureItem>(item.what);
  if (!is_large) return;
  if (PicturePtr lighter = light(picture.picture)) {
    picture.picture = std::move(lighter);
  } else {
    item.opacity *= light_part;
  }
  walk.grounds.push_back({spot.place, Walk::Ground::Is::lightened});
}

void LowInk::change(std::vector<Item>& items, const Affine& map, Walk& walk) {
  for (Item& item : items) change(item, map, walk);
}

Scene LowInk::operator()(const Scene& scene, std::optional<Rect> inside) {
  Scene result = scene;
  Walk walk;
  walk.inside = inside;
  change(result.items, Affine{}, walk);
  return result;
}

}  // namespace quoin
