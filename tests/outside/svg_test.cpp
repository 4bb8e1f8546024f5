#include "formats/svg/svg.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "line_work_sample.h"
#include "programs.h"
#include "sample_cards.h"
#include "tables.h"

namespace quoin::outside {
namespace {

using testing::HasSubstr;

/// A picture of a page on white, as ImageMagick hands it on.
Pixels as_ppm(const Folder& folder, const std::string& png) {
  const Answer answer = run({"convert", folder.path(png), "-background", "white", "-flatten",
                             "-depth", "8", folder.path(png + ".ppm")});
  EXPECT_EQ(answer.exit_code, 0) << answer.words;
  return read_ppm(folder.read(png + ".ppm"));
}

/// Round all pixels that are not white: left, top, right, bottom in millimetres.
std::vector<double> ink_of(const Pixels& pixels, double ppi) {
  int left = pixels.width, top = pixels.height, right = 0, bottom = 0;
  for (int y = 0; y < pixels.height; ++y) {
    for (int x = 0; x < pixels.width; ++x) {
      const std::size_t at = 3 * (static_cast<std::size_t>(y) * pixels.width + x);
      if (pixels.rgb[at] > 200 && pixels.rgb[at + 1] > 200 && pixels.rgb[at + 2] > 200) continue;
      left = std::min(left, x);
      top = std::min(top, y);
      right = std::max(right, x + 1);
      bottom = std::max(bottom, y + 1);
    }
  }
  std::vector<double> box;
  for (const int pixel : {left, top, right, bottom}) box.push_back(pixel * 25.4 / ppi);
  return box;
}

class SvgElsewhere : public testing::Test {
 protected:
  Bytes svg(const Drawing& drawing, const LayerSet& layers) {
    return write_svg(drawing, layers, cards_.shelf()).value();
  }

  /// As rsvg-convert draws it at its own size.
  Pixels drawn(const Bytes& svg, const std::string& ppi) {
    const std::string path = folder_.put("drawing.svg", svg);
    const Answer answer = run(
        {"rsvg-convert", "-d", ppi, "-p", ppi, "--unlimited", "-o", folder_.path("d.png"), path});
    EXPECT_EQ(answer.exit_code, 0) << answer.words;
    return as_ppm(folder_, "d.png");
  }

  SampleCards cards_;
  Folder folder_;
};

TEST_F(SvgElsewhere, has_the_size_it_says_on_paper) {
  const std::string path =
      folder_.put("net.svg", svg(LineWorkSample::drawing(), {Layer::cut, Layer::crease}));
  EXPECT_EQ(run({"rsvg-convert", "-f", "pdf", "-o", folder_.path("net.pdf"), path}).exit_code, 0);
  // 120 x 80 mm are 340.157 x 226.772 points.
  const std::string info = run({"pdfinfo", folder_.path("net.pdf")}).words;
  const std::size_t at = info.find("Page size:");
  ASSERT_NE(at, std::string::npos) << info;
  const auto words = words_of(info.substr(at, info.find('\n', at) - at));
  EXPECT_NEAR(number(words[2]), 340.157, 0.05);
  EXPECT_NEAR(number(words[4]), 226.772, 0.05);
}

TEST_F(SvgElsewhere, measures_what_was_drawn_layer_by_layer) {
  constexpr double ppi = 508;  // 20 pixels a millimetre
  const auto expect_box = [&](Layer layer, const std::vector<double>& box) {
    const auto found = ink_of(drawn(svg(LineWorkSample::drawing(), {layer}), "508"), ppi);
    // Lines are 0.1 mm wide: half of that to each side, give or take a pixel.
    for (std::size_t i = 0; i < 4; ++i) {
      const double edge = i < 2 ? -0.05 : 0.05;
      EXPECT_NEAR(found[i], box[i] + edge, 0.06) << to_string(layer) << " side " << i;
    }
  };
  expect_box(Layer::cut, {10, 10, 110, 70});
  expect_box(Layer::glue, {85, 15, 105, 65});
}

TEST_F(SvgElsewhere, is_well_formed_and_names_its_layers) {
  const std::string path = folder_.put(
      "net.svg", svg(LineWorkSample::drawing(), {Layer::cut, Layer::crease, Layer::glue}));
  const Answer read = run({"/usr/bin/python3", "-c",
                           "import sys, xml.etree.ElementTree as tree\n"
                           "for each in tree.parse(sys.argv[1]).getroot():\n"
                           "    print(each.tag.split('}')[1], each.get('id'), len(each))\n",
                           path});
  EXPECT_EQ(read.words, "title None 0\ng cut 4\ng crease 3\ng glue 2\n");
}

// The face has gradients, pictures with clear parts, turned and half clear groups, text and a soft
// shadow: the SVG, drawn by librsvg's own program, must look as the PDF does in poppler.
TEST_F(SvgElsewhere, looks_as_the_pdf_of_the_same_drawing_does) {
  const Rect bounds = SampleCards::face_bounds();
  const Pixels by_rsvg = drawn(svg({"Card", bounds, cards_.face()}, {Layer::art}), "254");
  Page page;
  page.media = bounds.size;
  page.placements = {{0, Affine::move(Point{} - bounds.at), {{}, bounds.size}}};
  Document document;
  document.pages = {page};
  const std::string pdf = folder_.put("card.pdf", cards_.pdf({cards_.face()}, document));
  // 10 pixels a millimetre; poppler alone would round a tenth of a pixel up to a whole one.
  EXPECT_EQ(run({"pdftoppm", "-scale-to-x", "690", "-scale-to-y", "940", "-singlefile", pdf,
                 folder_.path("p")})
                .exit_code,
            0);
  EXPECT_EQ(by_rsvg.width, 690);
  const Difference found = difference(read_ppm(folder_.read("p.ppm")), by_rsvg);
  EXPECT_LT(found.mean, 2.0);
  EXPECT_LE(found.largest_on_flat, 12);
  EXPECT_GT(found.flat_share, 0.5) << "too little left to compare";
}

}  // namespace
}  // namespace quoin::outside
