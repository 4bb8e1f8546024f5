#include "pieces/card/inspect.h"

#include "pieces/card/check_parts.h"

namespace quoin::pieces {

Diagnostics check_face(const Face& face, const game::Limits& limits, const FaceLook& look) {
  Diagnostics found;
  const std::vector<Leaf> leaves = leaves_of(face.scene);
  const Inspection inspection{face, limits, look, leaves, found};
  check_resolution(inspection);
  check_bleed(inspection);
  check_safe_area(inspection);
  check_setting(inspection);
  check_type_size(inspection);
  check_lines(inspection);
  check_contrast(inspection);
  return found;
}

}  // namespace quoin::pieces
