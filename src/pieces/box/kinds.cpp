#include "pieces/box/kinds.h"

#include "pieces/box/tuck.h"

namespace quoin::pieces {

const std::vector<BoxKind>& box_kinds() {
  static const std::vector<BoxKind> kinds = {
      {"tuck", "tuck carton", draw_tuck},
  };
  return kinds;
}

const BoxKind* find_box_kind(std::string_view word) {
  for (const BoxKind& kind : box_kinds()) {
    if (kind.word == word) return &kind;
  }
  return nullptr;
}

}  // namespace quoin::pieces
