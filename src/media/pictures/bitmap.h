#pragma once
#include <cstdint>
#include <vector>

#include "media/picture.h"

namespace quoin::pictures {

/// Decoded pixels as the file stores them: not turned upright, 8 bits a channel, channels side by
/// side, rows from the top without gaps. CMYK is 0 = no ink. Alpha, when there is any, is the
/// last channel and not multiplied into the colours. 16-bit sources are rounded to 8.
struct Bitmap {
  int width = 0, height = 0;
  ColourModel model = ColourModel::rgb;
  bool has_alpha = false;
  std::vector<std::uint8_t> samples;
  Bytes profile;  ///< ICC, checked to fit `model`; empty: sRGB, grey or device CMYK

  [[nodiscard]] int colours() const {
    return model == ColourModel::grey ? 1 : model == ColourModel::rgb ? 3 : 4;
  }
  [[nodiscard]] int channels() const { return colours() + (has_alpha ? 1 : 0); }
  [[nodiscard]] std::size_t pixel_count() const {
    return static_cast<std::size_t>(width) * static_cast<std::size_t>(height);
  }
};

}  // namespace quoin::pictures
