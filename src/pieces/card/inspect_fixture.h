#pragma once
#include <string>
#include <vector>

#include "pieces/card/inspect.h"

namespace quoin::pieces {

/// A poker card's face (63.5 x 88.9 mm, corner 3.5, bleed 3, safe 3) that a test draws on and has
/// inspected. Elements stand on line 1, 2, ... of face.toml in the order in which they are added.
/// For tests only.
class DrawnFace {
 public:
  DrawnFace();

  Item& add(std::string element, decltype(Item::what) what);
  Item& panel(std::string element, Rect box, Paint fill);
  Item& frame(std::string element, Rect box, Mm width, Colour colour);
  Item& text(std::string element, std::string words, Rect box, double type_points,
             Colour colour = black);
  /// A picture file of that many pixels, opaque, made by `paint(x, y)` as 0xRRGGBB.
  PicturePtr picture_file(const std::string& path, int width, int height,
                          std::uint32_t (*paint)(int x, int y));
  Item& picture(std::string element, const PicturePtr& picture, Rect to);
  Item& group(std::string element, std::vector<Item> items);
  /// The last element, taken off again to be put into a group.
  Item take_last();

  /// Sets texts that are not set yet, draws, and checks.
  Diagnostics check();
  FaceLook look();
  [[nodiscard]] Face face() const { return {"W-07", scene, format, row}; }

  MemoryWorld world;
  PictureShelf shelf{world};
  Typesetter typesetter{{}};
  Scene scene;
  game::CardFormat format;
  game::Limits limits;
  Origin row{FileName("cards.csv"), 7, 1, 4};
  Rect bleed_box, trim_box;

 private:
  std::uint32_t line_ = 0;
};

/// A finding in full, as a test expects it: severity, name, place, message, details, hints, each
/// on a line of its own.
[[nodiscard]] std::string whole(const Diagnostic& finding);
[[nodiscard]] std::string whole(const Diagnostics& findings);
/// Only the findings with that id.
[[nodiscard]] Diagnostics only(Id id, const Diagnostics& findings);

constexpr Rect box(double left, double top, double width, double height) {
  return {{Mm{left}, Mm{top}}, {Mm{width}, Mm{height}}};
}
[[nodiscard]] inline Colour colour(const char* text) { return *parse_colour(text); }

}  // namespace quoin::pieces
