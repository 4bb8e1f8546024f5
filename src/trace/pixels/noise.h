#pragma once
#include "trace/pixels/grid.h"

namespace quoin::trace {

/// What disturbs a picture.
struct Noise {
  double sigma = 0;       ///< standard deviation of the grey values, 0..255; 0 for clean art
  bool all_over = false;  ///< as in a photograph, not only about the edges as in a JPEG
};

/// Measures it where the picture is plain: by the Laplacian (source: Immerkaer, "Fast Noise
/// Variance Estimation", Computer Vision and Image Understanding 64(2), 1996, for the idea),
/// between 3 and 8 pixels from strong edges, where a JPEG rings and hatching does not reach; the
/// calmest nine tenths count. What rounding to whole numbers alone makes is taken off (1/12 of a
/// step squared).
[[nodiscard]] Noise measure_noise(const Grid<Rgb>& pixels);

/// The picture without that noise, edges kept: a bilateral filter against what compression left,
/// mean shift against a camera's noise; clean art as it is.
[[nodiscard]] Grid<Rgb> without(const Noise& noise, const Grid<Rgb>& pixels);

}  // namespace quoin::trace
