// The measuring sheet as an independent renderer draws it: Poppler's pdftoppm, at 300 ppi. What is
// found in its picture must lie where the sheet says, to 0.02 mm.
#include <gtest/gtest.h>

#include <cmath>

#include "job/printer/printer_work.h"
#include "press/scan/find_dots.h"
#include "press/scan/read_side.h"
#include "programs.h"

namespace quoin::outside {
namespace {

press::GreyImage rendered(const Folder& folder, const std::string& pdf, int page) {
  const std::string number = std::to_string(page);
  const Answer answer = run({"pdftoppm", "-r", "300", "-f", number, "-l", number, "-singlefile",
                             pdf, folder.path("page-" + number)});
  EXPECT_EQ(answer.exit_code, 0) << answer.words;
  const Pixels pixels = read_ppm(folder.read("page-" + number + ".ppm"));
  press::GreyImage image{pixels.width, pixels.height, {}};
  for (std::size_t i = 0; i < pixels.rgb.size(); i += 3) image.pixels.push_back(pixels.rgb[i]);
  return image;
}

TEST(MeasuringSheetByPoppler, has_every_mark_within_a_fiftieth_of_a_millimetre) {
  const Folder folder;
  for (const Size paper : {Size{Mm{210}, Mm{297}}, Size{Mm{279.4}, Mm{215.9}}}) {
    pack::MeasuringSheet wanted;
    wanted.paper = paper;
    wanted.paper_name = "paper";
    const auto pdf = job::measuring_sheet_pdf(wanted);
    ASSERT_TRUE(pdf);
    const std::string path = folder.put("sheet.pdf", *pdf);
    for (const auto side : {press::SheetSide::front, press::SheetSide::back}) {
      const press::GreyImage image =
          rendered(folder, path, side == press::SheetSide::front ? 1 : 2);
      const auto seen = press::read_side(image, {Size{Mm{210}, Mm{297}}, paper}, FileName("page"));
      ASSERT_TRUE(seen) << seen.why().front().message;
      EXPECT_EQ(seen->side, side);
      EXPECT_EQ(seen->layout.paper, paper);
      EXPECT_EQ(seen->dots, static_cast<int>(seen->layout.dots_of(side).size()));
      EXPECT_EQ(seen->perspective, press::Perspective::none);
      const double per_mm = 300 / mm_per_inch;
      for (const Point dot : seen->layout.dots_of(side)) {
        const press::Pixel meant{dot.x.value * per_mm, dot.y.value * per_mm};
        const auto found = press::find_dot(image, {meant, 40, 16, 32, 0});
        ASSERT_TRUE(found);
        EXPECT_LT(std::hypot(found->x - meant.x, found->y - meant.y) / per_mm, 0.02);
      }
    }
  }
}

}  // namespace
}  // namespace quoin::outside
