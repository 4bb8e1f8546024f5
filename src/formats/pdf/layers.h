#pragma once
#include <map>
#include <string>

#include "formats/pdf/qpdf.h"
#include "scene/scene.h"

namespace quoin::pdf {

/// The optional-content groups of one file (ISO 32000-1, 8.11): "Artwork" and "Marks" always, the
/// others when something lies on them. All are shown and printed.
class Layers {
 public:
  explicit Layers(QPDF& file) : file_(file) {
    (void)of(Layer::art);
    (void)of(Layer::mark);
  }

  /// The group, made when it is first asked for.
  [[nodiscard]] Object of(Layer layer);
  /// The key of the group in a page's /Properties, without its slash.
  [[nodiscard]] static std::string key(Layer layer);
  /// The catalogue's /OCProperties, in the order of `Layer`.
  [[nodiscard]] Object properties() const;

 private:
  QPDF& file_;
  std::map<Layer, Object> groups_;
};

}  // namespace quoin::pdf
