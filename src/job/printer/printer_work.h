#pragma once
#include <string>
#include <vector>

#include "base/result.h"
#include "base/world.h"
#include "pack/measuring_sheet.h"
#include "press/measurement.h"
#include "press/scan/measure_scans.h"

namespace quoin::job {

/// The measuring sheet as a PDF.
[[nodiscard]] Result<Bytes> measuring_sheet_pdf(const pack::MeasuringSheet& wanted);

/// A picture file of this machine as brightness, upright. Fails as `PictureShelf::open` and
/// `PictureShelf::pixels` do, and with `press.scan-without-marks` for an SVG, which is no scan.
[[nodiscard]] Result<press::GreyImage> grey_picture(const std::string& path);

/// The two pictures of one sheet, as paths on this machine.
struct ScanFiles {
  std::string front, back;
};

/// What the pictures of one or several sheets come to. All sheets must have been turned about the
/// same edge and be of the same paper (`press.readings-disagree`). Fails with what is wrong with
/// every pair, each at its picture, as `press::read_side` and `press::measure_pair` do, and as
/// `press::combined` does. At least one pair.
struct ScansMeasured {
  press::Measurement all;
  Size paper;
  game::FlipEdge flip = game::FlipEdge::long_edge;
  std::vector<press::ScanMeasured> each;
};
[[nodiscard]] Result<ScansMeasured> measure_scans(const std::vector<ScanFiles>& files,
                                                  const std::vector<Size>& papers,
                                                  game::FlipEdge believed);

}  // namespace quoin::job
