#pragma once
#include <cstdint>

#include "media/pictures/svg_tree.h"

namespace quoin::pictures {

/// What drawing an SVG would take, told from its tree alone.
struct SvgCost {
  std::int64_t drawn_elements = 0;  ///< after following each use, pattern, mask and marker
  std::int64_t path_bytes = 0;      ///< of all outlines, as written
  std::int64_t text_bytes = 0;
  std::int64_t style_work = 0;  ///< rules x elements
  bool has_text = false;
  bool has_effects = false;  ///< filter, mask, pattern, marker, dash or brought-in picture

  /// Whether it is so light that nobody needs to try it.
  [[nodiscard]] bool is_plain() const {
    return !has_effects && drawn_elements < 5'000 && path_bytes < 256 * 1024 &&
           text_bytes < 10'000 && style_work < 100'000;
  }
};

/// Follows all references once. Fails with `picture.svg-circular` when one leads back to where it
/// stands and with `picture.svg-too-heavy` past the limits in limits.h.
[[nodiscard]] Result<SvgCost> cost_of(const SourceFile& file, const SvgTree& tree);

}  // namespace quoin::pictures
