#pragma once
#include <map>
#include <optional>
#include <string>

#include "media/light_picture.h"
#include "scene/scene.h"

namespace quoin {

/// Turns drawings into ones that take little ink and still look like themselves: large fills become
/// tints with an outline in their own colour, large drawings keep their lines and have their areas
/// lightened, large photographs are washed out; words and small things keep their colours, and what
/// was light on dark is made dark enough to be read on the lightened ground. Shadows of large
/// things go.
///
/// Large is what covers `large_area` mm² or more. Pictures are lightened once each. For one thread
/// at a time.
class LowInk {
 public:
  explicit LowInk(double large_area) : large_area_(large_area) {}

  /// The scene in low ink. Texts whose colours change are not set any more. Only what lies in
  /// `inside` gets an outline: the edge of a ground that bleeds is no line to be seen.
  [[nodiscard]] Scene operator()(const Scene& scene, std::optional<Rect> inside = std::nullopt);

 private:
  struct Walk;
  struct Spot;
  void change(std::vector<Item>& items, const Affine& map, Walk& walk);
  void change(Item& item, const Affine& map, Walk& walk);
  void change(ShapeItem& shape, const Spot& spot, Walk& walk);
  void change(TextItem& text, const Spot& spot, Walk& walk);
  [[nodiscard]] PicturePtr light(const PicturePtr& picture);

  double large_area_;
  std::map<std::string, PicturePtr> pictures_;  // by key
};

/// The area from which on something on a piece of that size is a flood: a twentieth of it.
[[nodiscard]] double flood_area(Size piece);

}  // namespace quoin
