#pragma once
#include <array>
#include <string_view>
#include <vector>

#include "media/pictures/bitmap.h"
#include "media/pictures/source.h"

namespace quoin::pictures {

/// The parts of a PNG file that matter for printing; views into the file's bytes.
/// Source: W3C "Portable Network Graphics (PNG) Specification (Third Edition)".
struct PngParts {
  enum ColourType { grey = 0, rgb = 2, palette = 3, grey_alpha = 4, rgb_alpha = 6 };
  int width = 0, height = 0;
  int bits = 8;  ///< a sample, or a palette index
  ColourType type = rgb;
  bool interlaced = false;
  std::string_view colours;            ///< PLTE: RGB triples
  std::string_view transparency;       ///< tRNS
  std::string_view profile;            ///< iCCP as stored
  std::string_view exif;               ///< eXIf
  double gamma = 0;                    ///< gAMA, 0 when there is none or sRGB or iCCP overrules it
  bool is_srgb = false;                ///< an sRGB chunk
  bool is_animated = false;            ///< an acTL chunk
  std::vector<std::string_view> data;  ///< IDAT, in order

  [[nodiscard]] int channels() const;
  [[nodiscard]] ColourModel model() const;
  [[nodiscard]] bool has_alpha() const {
    return type == grey_alpha || type == rgb_alpha || !transparency.empty();
  }
  [[nodiscard]] std::size_t row_bytes(int pixels) const;
  /// Bytes between a sample and the same one of its left neighbour, at least 1.
  [[nodiscard]] std::size_t step() const;
};

/// One of the passes in which a PNG's rows come: a single one, or seven when interlaced.
struct PngPass {
  int x0 = 0, y0 = 0, dx = 1, dy = 1;
  int columns = 0, rows = 0;  ///< of this picture in this pass; 0 columns: no data
};
[[nodiscard]] std::vector<PngPass> passes(const PngParts& parts);

/// All bytes that the data inflates to: rows of all passes, each after its filter byte.
[[nodiscard]] std::size_t unpacked_bytes(const PngParts& parts);

/// Reads the chunks and verifies their checksums. Fails with `picture.damaged`, `.too-large` or
/// `.unusual-storage`.
[[nodiscard]] Result<PngParts> read_png_parts(const SourceFile& file);

}  // namespace quoin::pictures
