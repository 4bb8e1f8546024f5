#pragma once
#include <optional>
#include <string>

#include "scene/scene.h"

namespace quoin {

/// Draws what the item is, clipped, without its outline, shadow, map or opacity.
void draw_content(const Item& item, Canvas& canvas);

/// Draws `outline` round the item's content, in the item's own frame. Outlines stay vectors for
/// shapes, text without symbols and pictures without clear parts; what is clipped or has clear
/// parts is spread from its silhouette.
void draw_outline(const Item& item, const Outline& outline, Canvas& canvas);

/// Round the content's ink in the item's own frame, clip counted, outline and shadow not.
[[nodiscard]] std::optional<Rect> content_ink(const Item& item);

/// The shadow as the item's own frame has it. Its offset is meant in the frame in which the item is
/// drawn, so that the light comes from one side however things are turned.
[[nodiscard]] Shadow shadow_in_frame(const Item& item);

/// Says in words of its own everything that bears on the item's silhouette, with places counted
/// from `origin` to 0.0001 mm: equal descriptions, equal silhouettes.
[[nodiscard]] std::string describe(const Item& item, Point origin);

[[nodiscard]] bool is_visible(const Paint& paint);

/// The part of the picture's place that is drawn, or nothing.
[[nodiscard]] std::optional<Rect> shown_part(const PictureItem& item);

}  // namespace quoin
