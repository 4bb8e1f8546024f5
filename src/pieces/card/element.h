#pragma once
#include <optional>
#include <vector>

#include "pieces/card/properties.h"
#include "scene/scene.h"

namespace quoin::pieces {

/// Draws the elements of a layout for one card into `items`, those whose conditions hold, in
/// order. `frame` is what `at` and `inset` are measured from: the trim, or a group's box; `bleed`
/// is what `inset = "bleed"` reaches out to.
void draw_elements(const std::vector<game::Element>& elements, const Sitting& sitting, Rect frame,
                   Mm bleed, std::vector<Item>& items);

/// Where an element is drawn: what its `at` and `inset` are measured from, what `inset = "bleed"`
/// reaches out to, and its box when it gives neither `size` nor `inset`.
struct ElementPlace {
  Rect frame;
  Mm bleed;
  std::optional<Rect> usual_box = std::nullopt;
};
/// One element; nothing when its conditions do not hold or it has nothing to draw.
[[nodiscard]] std::optional<Item> draw_element(const game::Element& element, const Sitting& sitting,
                                               const ElementPlace& place);

/// Whether the element's conditions hold.
[[nodiscard]] bool is_drawn(const game::Element& element, const Sitting& sitting);

/// The element's box before it is turned, or nothing (reported) when it has no size. Of places for
/// cards it is round them all.
[[nodiscard]] std::optional<Rect> box_of(const Properties& properties, const game::Element& element,
                                         const ElementPlace& place);
/// The box that `inset`, or `at` and `size`, give.
[[nodiscard]] std::optional<Rect> box_given(const Properties& properties,
                                            const game::Element& element,
                                            const ElementPlace& place);

/// What one kind of element makes inside its box; nothing when it has nothing to draw.
using Drawn = std::optional<decltype(Item::what)>;
[[nodiscard]] Drawn draw_picture(const Properties& properties, Rect box);
[[nodiscard]] Drawn draw_text(const Properties& properties, Rect box);
[[nodiscard]] Drawn draw_shape(const Properties& properties, Rect box, const Item& like);
[[nodiscard]] Drawn draw_repeat(const Properties& properties, Rect box, const Item& like);

/// How a text is set, as its properties say; a gradient runs over `box`.
[[nodiscard]] TextStyle text_style(const Properties& properties, Rect box);

/// How a picture of `facts` lies in `box`.
enum class PictureFit { contain, cover, stretch };
[[nodiscard]] Rect fitted(const PictureFacts& facts, Rect box, PictureFit fit, Vec focus);

/// The picture at `path`, or nothing with the reason reported.
[[nodiscard]] PicturePtr open_picture(const Properties& properties, const std::string& path,
                                      const Origin& asked);

}  // namespace quoin::pieces
