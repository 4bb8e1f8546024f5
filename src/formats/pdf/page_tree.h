#pragma once
#include <string>
#include <vector>

#include "formats/document.h"
#include "formats/pdf/drawn_forms.h"
#include "formats/pdf/layers.h"
#include "formats/pdf/shared_values.h"

namespace quoin::pdf {

/// A form on a page of the file.
struct PlacedForm {
  Form form;
  Layer layer = Layer::art;
  std::string key;      ///< its name in the page's resources, without the slash
  std::string showing;  ///< the operators that place and clip it, up to and with "Do"
};

/// Makes the page objects of one file.
class PageObjects {
 public:
  PageObjects(QPDF& file, Layers& layers, ColourSpaces& spaces)
      : file_(file), layers_(layers), spaces_(spaces) {}

  /// A page with its boxes (ISO 32000-1, 14.11.2), resources and content. The boxes are cut to
  /// lie in each other; an empty trim or bleed means the whole page. A transparent form brings a
  /// page group in sRGB.
  [[nodiscard]] Object made(const Page& page, const std::vector<PlacedForm>& placed);

 private:
  void set_boxes(Object object, const Page& page);
  [[nodiscard]] Object resources(const std::vector<PlacedForm>& placed);

  QPDF& file_;
  Layers& layers_;
  ColourSpaces& spaces_;
  SharedValues alike_;
};

/// Makes these the pages of the file, instead of those that it had.
void set_pages(QPDF& file, const std::vector<Object>& pages);

}  // namespace quoin::pdf
