#pragma once
#include <map>
#include <string>

#include "base/result.h"
#include "geometry/path.h"
#include "media/paint.h"
#include "media/picture.h"

namespace quoin::svg {

/// What drawings of one file refer to: gradients, clips and pictures, each once. The ids are the
/// first letter of the kind and a number, in the order of first use.
class Definitions {
 public:
  explicit Definitions(PictureShelf& shelf) : shelf_(shelf) {}

  /// ` fill="#1d2b33" fill-opacity="0.5"`; `property` is "fill" or "stroke".
  [[nodiscard]] std::string paint(const char* property, const Paint& paint);
  /// The attributes of a line: paint, width, dashes, joins and caps. Nothing for no line.
  [[nodiscard]] std::string stroke(const Stroke& stroke);
  /// ` clip-path="url(#c1)"`.
  [[nodiscard]] std::string clip(const Path& path);
  /// An element that shows the whole picture, upright, stretched to `to`. A picture that cannot be
  /// read shows as nothing and is reported in `found`.
  [[nodiscard]] std::string picture(const PicturePtr& picture, Rect to, Diagnostics& found);
  /// The same for pixels made here.
  [[nodiscard]] std::string pixels(const Raster& raster, Rect to);

  /// <defs>..</defs>, or nothing when nothing was defined.
  [[nodiscard]] std::string markup() const;

 private:
  [[nodiscard]] std::string id(char kind, const std::string& element, const std::string& rest);
  [[nodiscard]] std::string image(const std::string& address, double width, double height, Rect to);
  [[nodiscard]] Result<std::string> address(const PicturePtr& picture);

  PictureShelf& shelf_;
  std::map<std::string, std::string> known_;      ///< what follows the id -> id
  std::map<std::string, std::string> addresses_;  ///< picture key -> data address
  std::map<char, int> counts_;
  std::string text_;
};

}  // namespace quoin::svg
