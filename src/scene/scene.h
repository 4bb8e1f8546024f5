#pragma once
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "base/origin.h"
#include "geometry/path.h"
#include "media/canvas.h"
#include "media/paint.h"
#include "media/text.h"

namespace quoin {

/// What a drawn thing is for; writers may put each on a layer of its own.
enum class Layer { art, cut, crease, glue, bleed, safe, dimension, mark };
[[nodiscard]] std::string_view to_string(Layer layer);

/// What the maker says an element is: checks ask. An emblem is to be seen whole: a face, a badge.
enum class Role { ordinary, decoration, emblem };

struct PictureItem {
  PicturePtr picture;
  Rect to;      ///< where the whole picture would lie, stretched; may reach past `window`
  Rect window;  ///< the element's box; what leaves it is clipped when `crop`
  bool crop = false;
};

struct TextItem {
  TextBlock block;
  Point at;     ///< top left of the text's box
  SetText set;  ///< filled by `typeset`
};

struct ShapeItem {
  Path path;
  Paint fill = NoPaint{};
  Stroke stroke;  ///< width 0: none
};

struct Item;
struct GroupItem {
  std::vector<Item> items;
};

/// One drawn thing, with where it was said. Places are millimetres in the scene's frame, before
/// `map` is applied.
struct Item {
  std::string element;  ///< the id in its layout
  Origin origin;        ///< the element's line in the layout, or the card's cell that caused it
  Layer layer = Layer::art;
  Role role = Role::ordinary;
  Affine map;
  double opacity = 1;
  std::optional<Path> clip;  ///< in the item's own frame
  std::optional<Shadow> shadow;
  std::optional<Outline> outline;
  std::variant<PictureItem, TextItem, ShapeItem, GroupItem> what;
};

/// A drawing in millimetres; the one thing all pieces become and all writers take.
struct Scene {
  std::vector<Item> items;
};

/// Sets every text of the scene that is not set yet.
void typeset(Scene& scene, Typesetter& typesetter);

/// Draws the scene; texts must be set (`std::logic_error` otherwise).
void draw(const Scene& scene, Canvas& canvas);
/// The same for one item.
void draw(const Item& item, Canvas& canvas);

/// Round all ink of the item (clip, stroke, outline and shadow counted), in the frame in which
/// the item is drawn; nothing when it draws nothing. Texts must be set.
[[nodiscard]] std::optional<Rect> ink(const Item& item);

}  // namespace quoin
