#pragma once
#include <map>
#include <memory>
#include <string>

#include "base/result.h"
#include "formats/pdf/colour_spaces.h"
#include "media/canvas.h"

namespace quoin::pdf {

/// The raster images of one file, embedded once each, whoever shows them.
class Images {
 public:
  Images(QPDF& file, ColourSpaces& spaces, PictureShelf& shelf)
      : file_(file), spaces_(spaces), shelf_(shelf) {}

  /// The image that a placeholder of `recording` stands for; nothing when `stream` is no
  /// placeholder. An image that could not be prepared is reported in `found()` and left out.
  [[nodiscard]] std::optional<Object> instead_of(Object stream,
                                                 const PageRecorder::Recording& recording);

  [[nodiscard]] const Diagnostics& found() const { return found_; }

 private:
  [[nodiscard]] std::shared_ptr<const PreparedImage> prepare(
      const std::string& key, const PageRecorder::Recording& recording);
  [[nodiscard]] Object embed(const std::shared_ptr<const PreparedImage>& image);

  QPDF& file_;
  ColourSpaces& spaces_;
  PictureShelf& shelf_;
  std::map<std::string, Object> embedded_;
  Diagnostics found_;
};

/// The text of the first comment of a JPEG stream, if it starts with one: where a placeholder
/// carries its key.
[[nodiscard]] std::optional<std::string> first_comment(std::string_view jpeg);

}  // namespace quoin::pdf
