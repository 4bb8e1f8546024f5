#pragma once
#include <map>
#include <optional>

#include "formats/pdf/qpdf.h"
#include "media/picture.h"

namespace quoin::pdf {

/// The colour spaces of one file; each ICC profile is embedded once.
class ColourSpaces {
 public:
  explicit ColourSpaces(QPDF& file) : file_(file) {}

  /// [/ICCBased ...] of sRGB.
  [[nodiscard]] Object srgb();
  /// << /DefaultRGB of sRGB >>, the /ColorSpace of resources that name no others.
  [[nodiscard]] Object defaults();
  /// The space of the image's samples: its own profile's when it has one that suits its colour
  /// model, else sRGB, DeviceGray or DeviceCMYK (a press's own, for want of a better word);
  /// indexed with a palette.
  [[nodiscard]] Object of(const PreparedImage& image);

 private:
  [[nodiscard]] Object based_on(const Bytes& profile, int parts);

  QPDF& file_;
  std::map<Bytes, Object> profiles_;
  std::optional<Object> srgb_, defaults_;
};

/// Whether an ICC profile's header says that it describes that many inks or lights, as PDF allows
/// for images: RGB, grey or CMYK input, display, output or colour-space profiles.
[[nodiscard]] bool suits(const Bytes& profile, ColourModel model);

}  // namespace quoin::pdf
