#pragma once
#include <functional>
#include <map>
#include <memory>
#include <string>

#include "geometry/path.h"
#include "media/paint.h"
#include "media/picture.h"
#include "media/text.h"

namespace quoin {

/// Raster drawings that Quoin itself made while drawing (soft shadows, outlines of pictures), to
/// be embedded beside the maker's pictures: key to image.
using MadeImages = std::map<std::string, std::shared_ptr<const PreparedImage>>;

/// Round all that a stroke along the path covers, mitres and caps counted; an empty rectangle at
/// the origin when it covers nothing.
[[nodiscard]] Rect stroke_bounds(const Path& path, const Stroke& stroke);

/// Something to draw on, in millimetres from the top left of the page, y down. Cairo underneath;
/// the only place that knows it. State (map, clip) is kept in a stack.
class Canvas {
 public:
  struct State;
  explicit Canvas(std::unique_ptr<State> state);
  ~Canvas();
  Canvas(Canvas&&) noexcept;

  void save();
  void restore();
  void transform(const Affine& map);
  void clip(const Path& path);

  /// Whatever is drawn until `end_group` is laid down as one with that opacity (0..1).
  void begin_group();
  void end_group(double opacity);

  void fill(const Path& path, const Paint& paint);
  void stroke(const Path& path, const Stroke& stroke);
  /// The whole picture, upright, stretched to `to`.
  void picture(const PicturePtr& picture, Rect to);
  /// The text with its box's top left at `at`.
  void text(const SetText& text, Point at);
  /// Strokes the letters' outlines (for outlines round a whole element).
  void text_outline(const SetText& text, Point at, const Stroke& stroke);

  /// Draws what `draw` draws as a flat silhouette in the shadow's colour, moved and blurred.
  /// `ink` bounds what `draw` draws. Without blur and on vectors it stays vector work where
  /// possible; else it is made at 600 ppi. `key` names the drawing: equal keys are made once.
  void shadow(const Shadow& shadow, Rect ink, const std::string& key,
              const std::function<void(Canvas&)>& draw);
  /// The same, spread outwards by the outline's width, hard-edged: for pictures with alpha.
  void spread(const Outline& outline, Rect ink, const std::string& key,
              const std::function<void(Canvas&)>& draw);

 private:
  friend class PageRecorder;
  friend class ImageCanvas;
  std::unique_ptr<State> state_;
};

/// Draws pages one after another into an intermediate PDF in memory, in which every raster image
/// is a placeholder that names its key (pipeline: a fake JPEG of some 40 bytes), and icons are one
/// form each however often they are used. Page units are 1/600 in, so that what must be rastered
/// (SVG filters) is rastered at 600 ppi; page content is y-down millimetres all the same.
class PageRecorder {
 public:
  explicit PageRecorder(PictureShelf& shelf);
  ~PageRecorder();

  /// Draws the next page of `size` and returns its index.
  int page(Size size, const std::function<void(Canvas&)>& draw);

  struct Recording {
    Bytes pdf;
    int pages = 0;
    std::vector<Size> sizes;
    std::map<std::string, PicturePtr> pictures;  ///< placeholder key -> picture
    MadeImages made;                             ///< placeholder key -> image
    Diagnostics found;                           ///< pictures that could not be drawn
  };
  /// Ends the recording. `units_per_mm` below says how page units relate to millimetres.
  [[nodiscard]] Recording finish();
  static constexpr double units_per_mm = 600 / mm_per_inch;

 private:
  struct State;
  std::unique_ptr<State> state_;
};

/// Draws on pixels: previews, contact sheets and the checks that look at what was drawn.
class ImageCanvas {
 public:
  enum class Background { transparent, paper };  // paper is white
  /// `ppi` pixels an inch; the size in pixels is rounded up.
  ImageCanvas(PictureShelf& shelf, Size size, double ppi, Background background);
  ~ImageCanvas();

  [[nodiscard]] Canvas& canvas();
  /// The pixels so far.
  [[nodiscard]] Raster raster() const;
  /// Pictures that could not be drawn so far; there is nothing where they belong.
  [[nodiscard]] const Diagnostics& found() const;

 private:
  struct State;
  std::unique_ptr<State> state_;
};

}  // namespace quoin
