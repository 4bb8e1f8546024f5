#pragma once
#include <string_view>
#include <vector>

#include "media/pictures/source.h"

namespace quoin::pictures {

/// The segments of a JPEG file that matter for printing; views into the file's bytes.
/// Sources: ITU-T T.81 (JPEG), T.872 (its APP14 segment), ICC.1:2022 annex B.4 (profiles in APP2).
struct JpegParts {
  int width = 0, height = 0;  ///< stored
  int components = 0;
  std::uint32_t coding = 0;  ///< the start-of-frame marker's second byte, 0xc0…
  bool has_adobe = false;    ///< an APP14 "Adobe" segment
  std::uint32_t adobe_transform = 0;
  int scans = 0;
  std::string_view exif;                  ///< the TIFF block of the first Exif segment
  std::vector<std::string_view> profile;  ///< pieces in order; empty when one is missing

  /// Huffman-coded, sequential or progressive: what PDF's DCTDecode has.
  [[nodiscard]] bool is_usual_coding() const { return coding >= 0xc0 && coding <= 0xc2; }
  [[nodiscard]] ColourModel model() const {
    return components == 1   ? ColourModel::grey
           : components == 3 ? ColourModel::rgb
                             : ColourModel::cmyk;
  }
  [[nodiscard]] Bytes joined_profile() const;
};

/// Walks through all segments and scans to the end of the picture. Fails with `picture.damaged`,
/// `.too-large` or `.unusual-storage`.
[[nodiscard]] Result<JpegParts> read_jpeg_parts(const SourceFile& file);

}  // namespace quoin::pictures
