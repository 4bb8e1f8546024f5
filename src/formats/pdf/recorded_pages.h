#pragma once
#include <vector>

#include "formats/pdf/qpdf.h"
#include "media/canvas.h"

namespace quoin::pdf {

/// Opens a recording in `file`, which must be new, and gives each of its pages as a Form XObject
/// whose matrix takes recorded units to points. The pages themselves are let go at once, before
/// anything makes the library read the whole recording: at ten thousand faces that saves 40 MB.
///
/// The recording must outlive the file. Throws `std::logic_error` when it is damaged.
[[nodiscard]] std::vector<Object> recorded_pages(QPDF& file,
                                                 const PageRecorder::Recording& recording);

}  // namespace quoin::pdf
