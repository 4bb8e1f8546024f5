#pragma once
#include <optional>
#include <vector>

#include "media/picture.h"
#include "trace/pixels/grid.h"

namespace quoin::trace {

/// Connected pixels between which the colour takes no step.
struct PlainArea {
  Three mean;  ///< sRGB 0..255
  int pixels = 0;
  bool gradient = false;  ///< its colour changes along the way
};

/// What a pixel that is in no area is mixed of: `part` (0..1) of `second`, the rest of `first`.
struct Mixture {
  int first = -1, second = -1;  ///< areas; `second` is -1 when there is one only beside it
  Three first_colour,
      second_colour;  ///< sRGB 0..255: of an area's mean, or of a gradient just here
  double part = 0;
  double off = 0;  ///< how far the pixel is from that mixture, in sRGB steps
};

/// A picture divided into areas and what is mixed between them.
class PlainAreas {
 public:
  explicit PlainAreas(const Raster& picture);

  [[nodiscard]] int width() const { return area_.width(); }
  [[nodiscard]] int height() const { return area_.height(); }
  [[nodiscard]] const std::vector<PlainArea>& all() const { return all_; }
  /// The area of a pixel; -1 for a mixed or transparent one.
  [[nodiscard]] int area(int x, int y) const { return area_.at(x, y); }
  [[nodiscard]] int alpha(int x, int y) const { return alpha_.at(x, y); }  ///< 0..255
  /// sRGB 0..255, not premultiplied; black where it is transparent.
  [[nodiscard]] Three colour(int x, int y) const { return colour_.at(x, y); }
  /// CIE L*a*b* of the same.
  [[nodiscard]] Three lab(int x, int y) const { return lab_.at(x, y); }
  /// What a pixel without an area is mixed of; nothing when no area is within three pixels.
  [[nodiscard]] std::optional<Mixture> mixture(int x, int y) const;
  /// How far from a mixture a pixel may be to be taken for one, in sRGB steps.
  [[nodiscard]] double tolerance() const { return 12 + 4 * noise_; }
  /// Whether hardly a pixel is like those beside it.
  [[nodiscard]] bool all_noise() const { return all_noise_; }

 private:
  void read(const Raster& picture);
  void find_areas(const Grid<char>& plain, float step);
  void tell_gradients();

  Grid<Three> colour_, lab_;
  Grid<std::uint8_t> alpha_;
  Grid<int> area_;
  std::vector<PlainArea> all_;
  double noise_ = 0;  // standard deviation, 0..255
  bool all_noise_ = false;
};

}  // namespace quoin::trace
