#include "job/printer/printer_work.h"

#include <fmt/format.h>

#include <filesystem>
#include <future>

#include "formats/pdf/pdf.h"
#include "media/picture.h"
#include "media/text.h"

namespace quoin::job {
namespace {

/// Brightness of a pixel as the eye weighs its colours (ITU-R BT.601, 2.5.1), on white.
std::uint8_t luma(std::uint32_t argb) {
  const unsigned alpha = argb >> 24, red = argb >> 16 & 255U, green = argb >> 8 & 255U,
                 blue = argb & 255U;
  const unsigned weighed = (red * 299 + green * 587 + blue * 114 + 500) / 1000;
  return static_cast<std::uint8_t>(std::min(255U, weighed + 255U - alpha));
}

/// Both pictures of a sheet, each on a thread of its own.
Result<press::ScanMeasured> measure_sheet(const ScanFiles& files, const std::vector<Size>& papers,
                                          game::FlipEdge believed) {
  const auto read = [&papers](const std::string& path) -> Result<press::SideSeen> {
    Result<press::GreyImage> image = grey_picture(path);
    if (!image) return std::move(image).why();
    return press::read_side(*image, papers, FileName(path));
  };
  auto behind = std::async(std::launch::async, read, files.back);
  const Result<press::SideSeen> front = read(files.front);
  const Result<press::SideSeen> back = behind.get();
  Diagnostics found;
  for (const auto* side : {&front, &back}) {
    if (!*side) found.insert(found.end(), side->why().begin(), side->why().end());
  }
  if (!found.empty()) return found;
  return press::measure_pair(*front, *back, believed, FileName(files.front), FileName(files.back));
}

Diagnostic unlike(const ScanFiles& files, std::string_view what) {
  return Diagnostic(Id::press_readings_disagree, {FileName(files.back)},
                    fmt::format("this sheet {} the first", what))
      .hint("measure sheets of one printing together");
}

}  // namespace

Result<Bytes> measuring_sheet_pdf(const pack::MeasuringSheet& wanted) {
  const MemoryWorld nothing;
  PictureShelf shelf(nothing);
  Typesetter typesetter({});
  Document document = pack::measuring_sheet(wanted);
  for (Page& page : document.pages) typeset(page.own, typesetter);
  const auto symbols = DrawnSymbols::draw({}, shelf, {});
  if (!symbols) return symbols.why();
  return write_pdf(std::move(document), *symbols, shelf);
}

Result<press::GreyImage> grey_picture(const std::string& path) {
  const std::filesystem::path file(path);
  const std::string folder = file.parent_path().empty() ? "." : file.parent_path().string();
  const std::unique_ptr<World> world = real_world(folder);
  PictureShelf shelf(*world);
  Diagnostics found;
  Result<PicturePtr> picture = shelf.open(file.filename().string(), {FileName(path)}, found);
  if (!picture) return std::move(picture).why();
  if ((*picture)->facts().is_vector()) {
    return Diagnostic(Id::press_scan_without_marks, {FileName(path)},
                      "this is a drawing, and no scan of the measuring sheet")
        .hint("give the scans as PNG, JPEG or TIFF");
  }
  auto raster = shelf.pixels(*picture);
  if (!raster) return std::move(raster).why();
  press::GreyImage image{(*raster)->width, (*raster)->height, {}};
  image.pixels.reserve((*raster)->pixels.size());
  for (const std::uint32_t pixel : (*raster)->pixels) image.pixels.push_back(luma(pixel));
  return image;
}

Result<ScansMeasured> measure_scans(const std::vector<ScanFiles>& files,
                                    const std::vector<Size>& papers, game::FlipEdge believed) {
  ScansMeasured measured;
  std::vector<press::SheetMeasured> sheets;
  Diagnostics found;
  for (const ScanFiles& pair : files) {
    std::optional<press::ScanMeasured> one = measure_sheet(pair, papers, believed).or_report(found);
    if (!one) continue;
    if (!measured.each.empty()) {
      const press::ScanMeasured& first = measured.each.front();
      if (one->paper != first.paper) found.push_back(unlike(pair, "is of other paper than"));
      if (one->flip != first.flip) {
        found.push_back(unlike(pair, "was turned about another edge than"));
      }
    }
    sheets.push_back(one->sheet);
    measured.each.push_back(*std::move(one));
  }
  if (!found.empty()) return found;
  measured.paper = measured.each.front().paper;
  measured.flip = measured.each.front().flip;
  Result<press::Measurement> all = press::combined(std::move(sheets), measured.paper);
  if (!all) return std::move(all).why();
  measured.all = *std::move(all);
  return measured;
}

}  // namespace quoin::job
