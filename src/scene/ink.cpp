#include <algorithm>
#include <stdexcept>

#include "scene/parts.h"

namespace quoin {
namespace {

bool has_area(Rect r) { return r.size.width > Mm{0} && r.size.height > Mm{0}; }

std::optional<Rect> united(std::optional<Rect> a, std::optional<Rect> b) {
  if (!a || !b) return a ? a : b;
  return covering(*a, *b);
}

std::optional<Rect> ink_of(const PictureItem& item) { return shown_part(item); }

std::optional<Rect> ink_of(const TextItem& item) {
  if (!item.set.state()) throw std::logic_error("a text's ink was asked for before it was set");
  const Rect ink = item.set.facts().ink;
  if (!has_area(ink)) return std::nullopt;
  return Rect{item.at + (ink.at - Point{}), ink.size};
}

std::optional<Rect> ink_of(const ShapeItem& item) {
  std::optional<Rect> ink;
  if (is_visible(item.fill) && has_area(bounds(item.path))) ink = bounds(item.path);
  if (item.stroke.width > Mm{0} && is_visible(item.stroke.paint)) {
    const Rect line = stroke_bounds(item.path, item.stroke);
    if (has_area(line)) ink = united(ink, line);
  }
  return ink;
}

std::optional<Rect> ink_of(const GroupItem& group) {
  std::optional<Rect> all;
  for (const Item& item : group.items) all = united(all, ink(item));
  return all;
}

/// A Gaussian of deviation blur / 2 is below a thousandth of its height past three deviations.
Mm shadow_reach(const Shadow& shadow) { return std::max(Mm{0}, shadow.blur * 1.5); }

Rect moved(Rect r, Vec by) { return {r.at + by, r.size}; }

}  // namespace

bool is_visible(const Paint& paint) {
  const auto any = [](const std::vector<GradientStop>& stops) {
    return std::any_of(stops.begin(), stops.end(),
                       [](const GradientStop& stop) { return stop.colour.alpha > 0; });
  };
  if (const auto* colour = std::get_if<Colour>(&paint)) return colour->alpha > 0;
  if (const auto* linear = std::get_if<LinearGradient>(&paint)) return any(linear->stops);
  if (const auto* radial = std::get_if<RadialGradient>(&paint)) return any(radial->stops);
  return false;
}

std::optional<Rect> shown_part(const PictureItem& item) {
  if (!item.picture || !has_area(item.to)) return std::nullopt;
  return item.crop ? overlap(item.to, item.window) : item.to;
}

Shadow shadow_in_frame(const Item& item) {
  Shadow shadow = *item.shadow;
  if (const auto back = inverse(item.map)) shadow.offset = (*back)(shadow.offset);
  return shadow;
}

std::optional<Rect> content_ink(const Item& item) {
  const std::optional<Rect> all =
      std::visit([](const auto& what) { return ink_of(what); }, item.what);
  if (!all || !item.clip) return all;
  return overlap(*all, bounds(*item.clip));
}

std::optional<Rect> ink(const Item& item) {
  if (!(item.opacity > 0)) return std::nullopt;
  std::optional<Rect> all = content_ink(item);
  if (!all) return std::nullopt;
  if (item.outline && item.outline->width > Mm{0} && item.outline->colour.alpha > 0)
    all = grown(*all, item.outline->width);
  if (item.shadow && item.shadow->colour.alpha > 0) {
    const Shadow shadow = shadow_in_frame(item);
    all = covering(*all, grown(moved(*all, shadow.offset), shadow_reach(shadow)));
  }
  return bounds(item.map, *all);
}

}  // namespace quoin
