#pragma once
// An SVG as the tests look at it.
#include <string>
#include <vector>

#include "media/pictures/svg.h"

namespace quoin::pictures {

/// `content` in an <svg> of 9 x 9.
[[nodiscard]] std::string svg_with(const std::string& content);

/// The file art/a.svg with that text, looked at in a world of other files or in an empty one.
class SvgSample {
 public:
  explicit SvgSample(std::string text, const World* world = nullptr);

  /// What was found; throws std::logic_error with the refusal when it was refused.
  [[nodiscard]] const FirstLook& look() const;
  /// "id: message", with details and without hints, one for each remark.
  [[nodiscard]] std::vector<std::string> remarks() const;
  /// The first refusal in the same form, or "" when there is none.
  [[nodiscard]] std::string refusal() const;

 private:
  std::string text_;
  Result<FirstLook> look_;
};

}  // namespace quoin::pictures
