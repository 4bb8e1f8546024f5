#pragma once
#include <optional>
#include <string>
#include <vector>

#include "media/picture.h"
#include "trace/tracing.h"

namespace quoin::trace {

/// How far apart two pictures of one size are.
struct Comparison {
  double mean = 0;   ///< CIEDE2000, over all pixels
  double worst = 0;  ///< the CIEDE2000 that 95 % of the pixels do not exceed
  double ssim = 1;   ///< structural similarity of the grey values, at most 1
};

/// Compares two pictures, transparent parts laid on white; `std::logic_error` when their sizes
/// differ.
///
/// SSIM as Wang, Bovik, Sheikh, Simoncelli, "Image Quality Assessment: From Error Visibility to
/// Structural Similarity", IEEE Transactions on Image Processing 13(4), 2004: Gaussian window of
/// 11 x 11 pixels with a standard deviation of 1.5, K1 = 0.01, K2 = 0.03, L = 255, mean over all
/// windows that lie within the picture (all pixels when none does). Grey by the weights of
/// ITU-R BT.601.
[[nodiscard]] Comparison compare(const Raster& one, const Raster& other);

/// Where two pictures differ: the first one faint and grey, and on it in red what is another colour
/// in the second, in full from a CIEDE2000 of 10.
[[nodiscard]] Raster difference_picture(const Raster& one, const Raster& other);

/// An SVG that Quoin wrote, drawn so many pixels wide and high on nothing; nothing when the
/// renderer gives up.
[[nodiscard]] std::optional<Raster> drawn(const Bytes& svg, int width, int height);

/// What to think of a drawing.
enum class Verdict { good, look_closely, better_as_picture, cannot_be_helped };
[[nodiscard]] std::string_view to_string(Verdict verdict);  // "good", "look at it", …

/// A plain colour of a drawing.
struct DrawingColour {
  Colour colour;     ///< as the SVG has it
  std::string name;  ///< "dark blue"
  double share = 0;  ///< of the picture's area, 0..1
};
/// The plain colours of a drawing, the largest first; lines count with their length and width.
/// Gradients are none: what they cover is missing from the shares.
[[nodiscard]] std::vector<DrawingColour> drawing_colours(const Tracing& tracing);

/// A drawing beside its picture.
struct Judgement {
  Verdict verdict = Verdict::good;
  std::vector<std::string> reasons;  ///< sentences without full stop
  bool only_text = false;    ///< nothing but lettering that was left out keeps it from being good
  bool is_compared = false;  ///< false: the drawing is too much for the renderer
  Comparison comparison;
  int nodes = 0, colours = 0, faces = 0;
  std::vector<DrawingColour> plain_colours;
};

/// Draws the SVG again at the size of the picture (halved until it has at most 4 megapixels),
/// compares, and says what to think of it. Where small lettering was left out nothing is compared:
/// that is said by itself. Limits by our own eye on our own trials, no source.
[[nodiscard]] Judgement judge(const Raster& picture, const Tracing& tracing, const Bytes& svg);

}  // namespace quoin::trace
