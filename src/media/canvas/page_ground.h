#pragma once
#include <map>
#include <string>
#include <utility>

#include "media/canvas/ground.h"

namespace quoin {

/// Pages of a PDF under a canvas. Rasters become placeholders (a JPEG of a header and a comment,
/// the key, and nothing else) that whoever finishes the PDF swaps for the real image; SVG pictures
/// become one recording for each file and size, which cairo writes as one form.
class PageGround : public Ground {
 public:
  using Ground::Ground;
  void put_raster(cairo_t* cr, const PicturePtr& picture, Rect to) override;
  void put_drawing(cairo_t* cr, const PicturePtr& picture, Rect to) override;
  void put_mask(cairo_t* cr, const std::string& key, Rect to, Colour colour,
                const std::function<Mask()>& make) override;

  [[nodiscard]] std::map<std::string, PicturePtr> take_pictures() { return std::move(pictures_); }
  [[nodiscard]] MadeImages take_made() { return std::move(made_); }

 private:
  cairo_surface_t* placeholder(const std::string& key);
  /// An SVG as it was recorded, so many device pixels large.
  struct Recorded {
    cairo_surface_t* surface;
    int width, height;
  };
  /// Recorded at that size, or larger in the same proportions by an earlier use: what is in the
  /// file already need not be drawn again, and its effects are as fine.
  Recorded recording(const PicturePtr& picture, int width, int height);

  std::map<std::string, PicturePtr> pictures_;
  MadeImages made_;
  std::map<std::string, SurfacePtr> placeholders_;
  std::map<std::pair<std::string, std::pair<int, int>>, SurfacePtr> recordings_;
};

}  // namespace quoin
