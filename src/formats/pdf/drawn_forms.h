#pragma once
#include <map>
#include <vector>

#include "formats/pdf/images.h"
#include "formats/pdf/shared_values.h"

namespace quoin::pdf {

/// A drawing as a Form XObject in points, ready to be placed with `matrix_on_page`.
struct Form {
  Object object;
  bool transparent = false;  ///< something in it lets what lies under it through, or blends
};

/// Finishes the forms of recordings: placeholders become images, sRGB becomes ICC-based wherever
/// a device colour is named or meant, and a form is a group only where that counts.
class DrawnForms {
 public:
  DrawnForms(QPDF& file, ColourSpaces& spaces, Images& images)
      : file_(file), spaces_(spaces), images_(images) {}

  /// A recorded page, finished. It belongs to `file` or to another open file; then it is
  /// copied and let go there.
  [[nodiscard]] Form from(Object recorded, const PageRecorder::Recording& recording);

 private:
  // Each of these walks what hangs on an object, once, and answers whether it is transparent.
  bool form(Object stream);
  bool image(Object stream);
  bool resources(Object dictionary);
  bool drawings(Object dictionary);
  bool patterns(Object dictionary);
  bool states(Object dictionary);
  bool state(Object dictionary);
  void shadings(Object dictionary);
  void typefaces(Object dictionary);
  void tag_colour(Object dictionary, const std::string& key);

  QPDF& file_;
  ColourSpaces& spaces_;
  Images& images_;
  const PageRecorder::Recording* recording_ = nullptr;  // of the page at hand
  std::map<QPDFObjGen, bool> walked_;
  SharedValues alike_;
};

}  // namespace quoin::pdf
