#pragma once
#include <functional>
#include <string>

#include "media/canvas.h"
#include "media/canvas/cairo.h"
#include "media/canvas/drawings.h"
#include "media/canvas/mask.h"

namespace quoin {

/// What lies under a canvas: pages of a PDF, or pixels. It knows how pictures and masks get there;
/// everything else cairo does alike on both.
class Ground {
 public:
  explicit Ground(PictureShelf& shelf) : shelf_(shelf) {}
  virtual ~Ground() = default;

  /// Puts a picture of pixels, upright, stretched to `to` in the current frame.
  virtual void put_raster(cairo_t* cr, const PicturePtr& picture, Rect to) = 0;
  /// The same for an SVG.
  virtual void put_drawing(cairo_t* cr, const PicturePtr& picture, Rect to) = 0;
  /// Lays `colour` through a mask over `to`. `key` names the mask's content and is unique to it;
  /// `make` is called when no such mask was put here before.
  virtual void put_mask(cairo_t* cr, const std::string& key, Rect to, Colour colour,
                        const std::function<Mask()>& make) = 0;

  [[nodiscard]] PictureShelf& shelf() const { return shelf_; }
  [[nodiscard]] Drawings& drawings() { return drawings_; }
  /// Why pictures could not be drawn, each reason once.
  [[nodiscard]] const Diagnostics& found() const { return found_; }
  /// Adds those that were not found before.
  void report(const Diagnostics& why);

 protected:
  void report(const PicturePtr& picture, std::string what);

 private:
  PictureShelf& shelf_;
  Drawings drawings_;
  Diagnostics found_;
};

/// Pixels under a canvas, held by a cairo image surface.
class PixelGround : public Ground {
 public:
  using Ground::Ground;
  void put_raster(cairo_t* cr, const PicturePtr& picture, Rect to) override;
  void put_drawing(cairo_t* cr, const PicturePtr& picture, Rect to) override;
  void put_mask(cairo_t* cr, const std::string& key, Rect to, Colour colour,
                const std::function<Mask()>& make) override;

 private:
  std::map<std::string, SurfacePtr> masks_;
};

/// A canvas's insides.
struct Canvas::State {
  CairoPtr cr;
  Ground& ground;
  /// When set, everything is drawn flat in this colour, each thing keeping its own opacity, and
  /// shadows are left out: a silhouette.
  std::optional<Colour> flat;
  /// When set, nothing is drawn; what a silhouette would need is noted there instead.
  bool* needs_pixels = nullptr;
  /// Depth of saves at which a map flattened the page; nothing can be seen until it is restored.
  int depth = 1, flattened_at = 0;

  State(CairoPtr context, Ground& below) : cr(std::move(context)), ground(below) {}
  [[nodiscard]] bool draws() const { return flattened_at == 0 && needs_pixels == nullptr; }
  /// What a restore ends.
  void leave() {
    if (flattened_at == depth) flattened_at = 0;
    --depth;
  }
};

}  // namespace quoin
