#include "sheets/printed.h"

#include "sheets/printable.h"

namespace quoin::sheets {

Checked<std::optional<press::Correction>> corrected(const press::Profile& printer, Size paper,
                                                    const game::SheetWishes& wishes) {
  Diagnostics found = press::differences(
      printer, {paper, wishes.backs, wishes.flip, wishes.paper_name, wishes.origin});
  if (!found.empty()) return {std::nullopt, std::move(found)};
  press::Correction maps = press::correction(printer, paper, behind(paper, wishes.flip));
  if (!has_back_forms(wishes)) maps.back = maps.front;
  return {maps, {}};
}

}  // namespace quoin::sheets
