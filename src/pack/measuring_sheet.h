#pragma once
#include <string>

#include "formats/document.h"
#include "press/sheet_layout.h"

namespace quoin::pack {

/// What a measuring sheet is made for.
struct MeasuringSheet {
  Size paper;
  std::string paper_name;
  game::FlipEdge flip = game::FlipEdge::long_edge;
  game::BackPrinting backs = game::BackPrinting::printer;
  int sheets = 1;  ///< so many, numbered: a front and a back each
};

/// The sheet that a printer is measured with, two pages for each sheet of paper: bars for a ruler,
/// dots and codes for scans, rings to prick, scales that meet through the paper, letters in the
/// corners, and how to go about it in words. All marks lie where `press::sheet_layout` says; those
/// of the back that are read through the paper are drawn to be read from the front. Black on
/// white; its texts are not set yet, and it places no symbols.
[[nodiscard]] Document measuring_sheet(const MeasuringSheet& wanted);

}  // namespace quoin::pack
