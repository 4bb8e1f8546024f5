#pragma once
#include <cstdint>
#include <memory>
#include <string>

#include "media/pictures/bitmap.h"
#include "media/pictures/source.h"

namespace quoin::pictures {

/// `profile` when it is a sound ICC profile for pixels of that colour model; else nothing, and
/// `picture.profile-not-used` says why.
[[nodiscard]] Bytes fitting_profile(const SourceFile& file, Bytes profile, ColourModel model,
                                    Diagnostics& remarks);

/// Notes a profile that fits: that it is there, and what it calls itself ("a colour profile" when
/// it does not). "" notes nothing.
void note_profile(const Bytes& profile, PictureFacts& facts);

/// Turns the colours of one bitmap into sRGB, alpha left out of it.
///
/// With a profile: through it, relative colorimetric with black-point compensation; CMYK of more
/// than a megapixel by way of a table (see icc.cpp). Without: RGB is taken as sRGB, grey as sRGB's
/// grey, and CMYK as R = (1-C)(1-K), likewise G and B, the formula of PostScript's and PDF's plain
/// conversion up to how K is applied (common practice, no source): a picture for the screen, not a
/// proof.
class ToSrgb {
 public:
  explicit ToSrgb(const Bitmap& bitmap);
  ~ToSrgb();
  ToSrgb(const ToSrgb&) = delete;
  ToSrgb& operator=(const ToSrgb&) = delete;

  /// `count` pixels of the bitmap's channels to RGB triples.
  void convert(const std::uint8_t* samples, std::uint8_t* rgb, std::size_t count) const;

 private:
  void convert_plainly(const std::uint8_t* samples, std::uint8_t* rgb, std::size_t count) const;
  int channels_;
  ColourModel model_;
  void* transform_ = nullptr;  // cmsHTRANSFORM, null without a profile
};

}  // namespace quoin::pictures
