#pragma once
#include <string>

#include "formats/svg/definitions.h"
#include "scene/scene.h"

namespace quoin::svg {

/// Turns the items of a scene into SVG elements that look as they print.
class Painter {
 public:
  Painter(Definitions& definitions, PictureShelf& shelf)
      : definitions_(definitions), shelf_(shelf) {}

  /// The elements for one item; nothing when nothing of it can be seen. Texts must be set
  /// (`std::logic_error` otherwise).
  [[nodiscard]] std::string painted(const Item& item);

  /// Pictures that could not be drawn so far.
  [[nodiscard]] const Diagnostics& found() const { return found_; }

 private:
  [[nodiscard]] std::string body(const Item& item);
  [[nodiscard]] std::string content(const Item& item);
  [[nodiscard]] std::string what(const PictureItem& item);
  [[nodiscard]] std::string what(const TextItem& item);
  [[nodiscard]] std::string what(const ShapeItem& item);
  [[nodiscard]] std::string what(const GroupItem& group);
  [[nodiscard]] std::string outline(const Item& item);
  [[nodiscard]] std::string shadow(const Item& item);
  [[nodiscard]] std::string shape(const Path& path, const Paint& fill, const Stroke& stroke);
  /// What `draw` draws in the current frame within `area`, as pixels.
  [[nodiscard]] std::string pixels(Rect area, const std::function<void(Canvas&)>& draw);

  Definitions& definitions_;
  PictureShelf& shelf_;
  double scale_ = 1;  ///< of the current frame over the page's
  Diagnostics found_;
};

}  // namespace quoin::svg
