#include "pieces/box/kinds.h"

#include "pieces/box/lid.h"
#include "pieces/box/sleeve.h"
#include "pieces/box/tray.h"
#include "pieces/box/tuck.h"

namespace quoin::pieces {

const std::vector<BoxKind>& box_kinds() {
  static const std::vector<BoxKind> kinds = {
      {"tuck", "tuck carton", draw_tuck, least_tuck_depth, BoxKind::InTwo::possible},
      {"lid", "base and lid", draw_lid, least_tray_depth},
      {"sleeve", "tray and sleeve", draw_sleeve, least_tray_depth, BoxKind::InTwo::possible},
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
