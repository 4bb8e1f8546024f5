#pragma once
#include <string>

#include "desk/api/json.h"
#include "desk/session.h"
#include "job/printer/measure_printer.h"
#include "press/sheet_layout.h"

namespace quoin::desk {

// What the page is sent of printers. The types stand in api/printer_types.cpp.

/// Printers: those of the game as it is shown and of the machine's folder, "" for none.
[[nodiscard]] Json printers_view(const Snapshot& shown, const std::string& machine_folder);

/// MeasuredPrinter; `shown` tells whether the game's sheets can be corrected by it.
[[nodiscard]] Json measured_view(const std::string& id, const job::MeasuredPrinter& printer,
                                 const Snapshot& shown);

/// MeasuringSheet.
[[nodiscard]] Json measuring_sheet_view(const press::SheetLayout& layout, game::FlipEdge flip);

}  // namespace quoin::desk
