#pragma once
#include <map>
#include <string>

#include "formats/document.h"
#include "formats/pdf/qpdf.h"

namespace quoin::pdf {

/// The optional-content groups of one file (ISO 32000-1, 8.11): "Artwork" and "Marks" always, the
/// others when something lies on them. All are shown and printed. Where line work is written in
/// spot colours, the groups of cut, crease, glue, bleed and dimensions carry the metadata of
/// processing steps (ISO 19593-1:2018).
class Layers {
 public:
  Layers(QPDF& file, LineWork line_work) : file_(file), line_work_(line_work) {
    (void)of(Layer::art);
    (void)of(Layer::mark);
  }

  /// The group, made when it is first asked for.
  [[nodiscard]] Object of(Layer layer);
  /// What readers call the layer: "Cut".
  [[nodiscard]] static std::string title(Layer layer);
  /// The key of the group in a page's /Properties, without its slash.
  [[nodiscard]] static std::string key(Layer layer);
  /// The catalogue's /OCProperties, in the order of `Layer`.
  [[nodiscard]] Object properties() const;

 private:
  QPDF& file_;
  LineWork line_work_;
  std::map<Layer, Object> groups_;
};

}  // namespace quoin::pdf
