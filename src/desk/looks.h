#pragma once
#include <map>
#include <mutex>
#include <string>

#include "scene/scene.h"

namespace quoin::desk {

/// Names scenes by all that their looks follow from: every place, colour, text and picture in them,
/// and nothing of where it was said, so that a row that moves in the list keeps its picture. Fonts
/// are the caller's to add. Remembers the pictures it met; for one thread at a time.
class Looks {
 public:
  /// SHA-256 of the scene, of texts not yet set as well as of set ones, in hexadecimal.
  [[nodiscard]] std::string of(const Scene& scene);

 private:
  std::map<PicturePtr, std::string> drawings_;  // of SVG: with what they bring in
};

}  // namespace quoin::desk
