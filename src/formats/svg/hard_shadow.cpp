#include "formats/svg/hard_shadow.h"

#include <algorithm>

#include "scene/parts.h"

namespace quoin::svg {
namespace {

bool is_opaque(const std::vector<GradientStop>& stops) {
  return std::all_of(stops.begin(), stops.end(),
                     [](const GradientStop& stop) { return stop.colour.alpha >= 1; });
}

/// The paint in the one colour; false when it lets something through.
bool recolour(Paint& paint, Colour colour) {
  if (!is_visible(paint)) return true;
  const Colour* flat = std::get_if<Colour>(&paint);
  const auto* linear = std::get_if<LinearGradient>(&paint);
  const auto* radial = std::get_if<RadialGradient>(&paint);
  const bool opaque = (flat && flat->alpha >= 1) || (linear && is_opaque(linear->stops)) ||
                      (radial && is_opaque(radial->stops));
  paint = colour;
  return opaque;
}

bool recolour(Item& item, Colour colour);

bool recolour_text(TextItem& text, Colour colour) {
  const std::vector<TextRun>& runs = text.block.runs;
  if (std::any_of(runs.begin(), runs.end(), [](const TextRun& run) { return run.symbol; })) {
    return false;
  }
  TextStyle& style = text.block.style;
  return recolour(style.fill, colour) &&
         std::all_of(style.strokes.begin(), style.strokes.end(),
                     [&](Stroke& stroke) { return recolour(stroke.paint, colour); });
}

bool recolour_what(Item& item, Colour colour) {
  if (auto* text = std::get_if<TextItem>(&item.what)) return recolour_text(*text, colour);
  if (auto* shape = std::get_if<ShapeItem>(&item.what)) {
    return recolour(shape->fill, colour) && recolour(shape->stroke.paint, colour);
  }
  auto* group = std::get_if<GroupItem>(&item.what);
  return group && std::all_of(group->items.begin(), group->items.end(),
                              [&](Item& inner) { return recolour(inner, colour); });
}

bool recolour(Item& item, Colour colour) {
  if (item.opacity < 1) return false;
  item.shadow.reset();  // the shadow of a silhouette is no part of it
  if (item.outline) {
    // Round what is clipped an outline is spread from pixels.
    if (item.outline->colour.alpha < 1 || item.clip) return false;
    item.outline->colour = colour;
  }
  return recolour_what(item, colour);
}

}  // namespace

std::optional<Item> silhouette_of(const Item& item, Colour colour) {
  Item flat = item;
  flat.map = Affine{};
  flat.opacity = 1;
  if (!recolour(flat, colour)) return std::nullopt;
  return flat;
}

}  // namespace quoin::svg
