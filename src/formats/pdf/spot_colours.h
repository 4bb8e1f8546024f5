#pragma once
#include <map>
#include <optional>
#include <span>

#include "formats/pdf/colour_spaces.h"
#include "formats/pdf/drawn_forms.h"
#include "scene/scene.h"

namespace quoin::pdf {

/// The spot colours of one file, one for each layer of line work, and the line work written in
/// them. Content is written here, not by cairo, which knows no spot colours: see
/// docs/decisions/layered-pdf.md.
class SpotColours {
 public:
  SpotColours(QPDF& file, ColourSpaces& spaces) : file_(file), spaces_(spaces) {}

  /// A form of the size of a page with these items of one layer of line work, in the layer's spot
  /// colour, overprinting all that lies below. Opacity becomes tint.
  [[nodiscard]] Form form(std::span<const Item> items, Size page);

 private:
  [[nodiscard]] Object resources(Layer layer);
  [[nodiscard]] Object separation(Layer layer);
  [[nodiscard]] Object overprint();

  QPDF& file_;
  ColourSpaces& spaces_;
  std::map<Layer, Object> resources_;
  std::optional<Object> overprint_;
};

}  // namespace quoin::pdf
