#pragma once
#include <optional>

#include "press/correction.h"
#include "sheets/sheets.h"

namespace quoin::sheets {

/// The maps under which the two sides of sheets of `paper` are to be drawn for a printer that was
/// measured. Nothing, with `press.measured-otherwise`, when it was measured on other paper or
/// turned another way. Without back forms the back's map is the front's.
[[nodiscard]] Checked<std::optional<press::Correction>> corrected(const press::Profile& printer,
                                                                  Size paper,
                                                                  const game::SheetWishes& wishes);

}  // namespace quoin::sheets
