#pragma once
#include <vector>

#include "formats/pdf/pdf.h"

namespace quoin {

/// What is kept of symbols once they are drawn: a recording with one page for each.
struct DrawnSymbols::State {
  PageRecorder::Recording recording;
  std::vector<Rect> bounds;  ///< of each symbol
};

}  // namespace quoin
