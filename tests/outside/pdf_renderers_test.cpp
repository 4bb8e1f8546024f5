#include <gtest/gtest.h>

#include "programs.h"
#include "sample_cards.h"

namespace quoin::outside {
namespace {

// 4 x 5 in, so that every program has the same whole number of pixels.
constexpr Size paper{101.6_mm, 127_mm};
constexpr const char* resolution = "100";

/// A sheet with cards upright, upside down and a little askew, as three programs that share no
/// code draw it: poppler, MuPDF and Ghostscript; and as our own preview draws one of its cards.
class PdfRenderers : public testing::Test {
 protected:
  PdfRenderers() {
    Page page;
    page.media = paper;
    const Rect left{{6_mm, 6_mm}, {43_mm, 60_mm}}, right{{52_mm, 6_mm}, {43_mm, 60_mm}},
        below{{20_mm, 70_mm}, {50_mm, 50_mm}};
    const Affine smaller = Affine::scale(0.68, 0.68);
    page.placements = {
        {0, then(smaller, Affine::move({6_mm, 6_mm})), left},
        {0, then(then(smaller, Affine::turn(Angle::degrees(180))), Affine::move({95_mm, 66_mm})),
         right},
        {0, then(then(smaller, Affine::turn(Angle::degrees(93))), Affine::move({80_mm, 72_mm})),
         below}};
    Item bar = SampleCards::rectangle({{2_mm, 122_mm}, {90_mm, 3_mm}}, Colour{0.1, 0.5, 0.3, 1});
    bar.layer = Layer::mark;
    page.own.items.push_back(bar);
    Document document;
    document.pages = {page};
    path_ = folder_.put("sheet.pdf", cards_.pdf({cards_.face()}, document));
  }

  Pixels by_poppler(const std::string& pdf) {
    EXPECT_EQ(run({"pdftoppm", "-r", resolution, "-singlefile", pdf, folder_.path("p")}).exit_code,
              0);
    return read_ppm(folder_.read("p.ppm"));
  }

  Pixels by_mupdf() {
    EXPECT_EQ(run({"mutool", "draw", "-q", "-r", resolution, "-F", "ppm", "-o",
                   folder_.path("m.ppm"), path_})
                  .exit_code,
              0);
    return read_ppm(folder_.read("m.ppm"));
  }

  Pixels by_ghostscript() {
    const Answer answer =
        run({"gs", "-q", "-dBATCH", "-dNOPAUSE", "-dSAFER", "-sDEVICE=ppmraw", "-dTextAlphaBits=4",
             "-dGraphicsAlphaBits=4", std::string("-r") + resolution,
             "-sOutputFile=" + folder_.path("g.ppm"), path_});
    EXPECT_EQ(answer.exit_code, 0);
    EXPECT_EQ(answer.words, "") << "Ghostscript has nothing to complain of";
    return read_ppm(folder_.read("g.ppm"));
  }

  SampleCards cards_;
  Folder folder_;
  std::string path_;
};

/// Away from edges, where each program smooths in its own way, colours must agree.
void expect_alike(const Difference& found, int largest) {
  EXPECT_LT(found.mean, 2.0);
  EXPECT_LE(found.largest_on_flat, largest);
  EXPECT_GT(found.flat_share, 0.5) << "too little left to compare";
}

TEST_F(PdfRenderers, poppler_and_mupdf_draw_the_same_sheet) {
  expect_alike(difference(by_poppler(path_), by_mupdf()), 12);
}

TEST_F(PdfRenderers, poppler_and_ghostscript_draw_the_same_sheet) {
  expect_alike(difference(by_poppler(path_), by_ghostscript()), 12);
}

TEST_F(PdfRenderers, a_sheet_drawn_elsewhere_is_told_apart) {
  Document document;
  document.pages = {SampleCards::page(paper, {0})};
  const std::string other = folder_.put("other.pdf", cards_.pdf({cards_.face()}, document));
  EXPECT_GT(difference(by_poppler(path_), by_poppler(other)).mean, 10);
}

// What a maker sees on the screen is what a printer's program makes of the file.
TEST_F(PdfRenderers, poppler_draws_a_card_as_the_preview_does) {
  Page page;
  page.media = paper;
  page.placements = {{0, Affine::move({20_mm, 20_mm}), {{20_mm, 20_mm}, {63_mm, 88_mm}}}};
  Document document;
  document.pages = {page};
  const Pixels printed = by_poppler(folder_.put("one.pdf", cards_.pdf({cards_.face()}, document)));

  ImageCanvas preview(cards_.shelf(), paper, 100, ImageCanvas::Background::paper);
  preview.canvas().transform(Affine::move({20_mm, 20_mm}));
  preview.canvas().clip(Path::rectangle({{}, {63_mm, 88_mm}}));
  draw(cards_.face(), preview.canvas());
  const Raster raster = preview.raster();
  Pixels shown{raster.width, raster.height, {}};
  for (const std::uint32_t pixel : raster.pixels) {
    for (const int shift : {16, 8, 0}) {
      shown.rgb.push_back(static_cast<std::uint8_t>(pixel >> shift & 0xff));
    }
  }
  expect_alike(difference(printed, shown), 12);
}

}  // namespace
}  // namespace quoin::outside
