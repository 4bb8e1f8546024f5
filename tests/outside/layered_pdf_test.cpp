#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "formats/pdf/inspection.h"
#include "line_work_sample.h"
#include "programs.h"
#include "sample_cards.h"

namespace quoin::outside {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;

constexpr int ppi = 254;  // 10 pixels a millimetre
constexpr Size paper{120_mm, 100_mm};

/// A sheet with a card and over it a net's lines as spot colours, and the same sheet without lines.
class LayeredPdf : public testing::Test {
 protected:
  LayeredPdf() {
    lined_ = folder_.put("lined.pdf", sheet(LineWork::spot_colours, LineWorkSample::drawing()));
    bare_ = folder_.put("bare.pdf", sheet(LineWork::spot_colours, {}));
  }

  Bytes sheet(LineWork line_work, const Drawing& drawing) {
    Page page = SampleCards::page(paper, {0});
    for (Item item : drawing.scene.items) {
      item.map = then(item.map, Affine::move({10_mm, 20_mm}));
      page.own.items.push_back(item);
    }
    Document document;
    document.line_work = line_work;
    document.pages = {page};
    return cards_.pdf({cards_.face()}, document);
  }

  /// Separates the inks of a file; gives the names of the files made.
  std::vector<std::string> separate(const Folder& into, const std::string& pdf) {
    const Answer answer =
        run({"gs", "-q", "-dBATCH", "-dNOPAUSE", "-dSAFER", "-sDEVICE=tiffsep",
             "-r" + std::to_string(ppi), "-sOutputFile=" + into.path("ink.tif"), pdf});
    EXPECT_EQ(answer.exit_code, 0) << answer.words;
    EXPECT_EQ(answer.words.find("rror"), std::string::npos) << answer.words;
    return into.files();
  }

  /// One plate, 255 where there is no ink.
  static Pixels plate(const Folder& folder, const std::string& name) {
    const Answer answer = run({"convert", folder.path(name), "-colorspace", "sRGB", "-type",
                               "TrueColor", "-depth", "8", folder.path("plate.ppm")});
    EXPECT_EQ(answer.exit_code, 0) << answer.words;
    return read_ppm(folder.read("plate.ppm"));
  }

  static int at(const Pixels& pixels, double x, double y) {
    const auto column = static_cast<std::size_t>(x * ppi / 25.4);
    const auto row = static_cast<std::size_t>(y * ppi / 25.4);
    return pixels.rgb.at(3 * (row * static_cast<std::size_t>(pixels.width) + column));
  }

  SampleCards cards_;
  Folder folder_;
  std::string lined_, bare_;
};

TEST_F(LayeredPdf, has_a_plate_for_each_layer_of_lines) {
  const Folder plates;
  const auto names = separate(plates, lined_);
  for (const char* name : {"Cut", "Crease", "Glue"}) {
    EXPECT_THAT(names, testing::Contains("ink(" + std::string(name) + ").tif"));
  }
  const Pixels cut = plate(plates, "ink(Cut).tif"), crease = plate(plates, "ink(Crease).tif");
  // The net's top left is at (10, 20): a crease 30 mm in, a slit 30 mm down.
  EXPECT_LT(at(cut, 20, 50), 60);
  EXPECT_EQ(at(cut, 40, 30), 255);
  EXPECT_LT(at(crease, 40, 30), 60);
  EXPECT_EQ(at(crease, 20, 50), 255);
}

TEST_F(LayeredPdf, leaves_the_art_below_the_lines_as_it_was) {
  const Folder with, without;
  (void)separate(with, lined_);
  const auto names = separate(without, bare_);
  for (const char* ink :
       {"ink(Cyan).tif", "ink(Magenta).tif", "ink(Yellow).tif", "ink(Black).tif"}) {
    ASSERT_THAT(names, testing::Contains(std::string(ink)));
    const Pixels plain = plate(without, ink);
    EXPECT_TRUE(plate(with, ink).rgb == plain.rgb) << ink;
    EXPECT_LT(*std::min_element(plain.rgb.begin(), plain.rgb.end()), 200) << ink << " has art";
  }
}

// What would be seen without spot colours: the lines are ink and knock the art out.
TEST_F(LayeredPdf, is_told_apart_from_lines_drawn_as_ink) {
  const std::string inked =
      folder_.put("inked.pdf", sheet(LineWork::drawn, LineWorkSample::drawing()));
  const Folder with, without;
  EXPECT_THAT(separate(with, inked), testing::Not(testing::Contains("ink(Cut).tif")));
  (void)separate(without, bare_);
  EXPECT_FALSE(plate(with, "ink(Cyan).tif").rgb == plate(without, "ink(Cyan).tif").rgb);
}

TEST_F(LayeredPdf, passes_structure_checks) {
  const Answer answer = run({"qpdf", "--check", lined_});
  EXPECT_EQ(answer.exit_code, 0) << answer.words;
  EXPECT_THAT(answer.words, HasSubstr("No syntax or stream encoding errors found"));
  EXPECT_THAT(pdf::inspect(folder_.read("lined.pdf")).faults, IsEmpty());
}

// Keys and names of ISO 19593-1:2018, as MuPDF reads them.
TEST_F(LayeredPdf, says_what_each_layer_is_for) {
  std::vector<std::string> layers;
  for (int i = 1; i <= 5; ++i) {
    const std::string where = "trailer/Root/OCProperties/OCGs/" + std::to_string(i);
    std::string layer;
    for (const std::string& word : words_of(run({"mutool", "show", lined_, where}).words)) {
      layer += word + " ";
    }
    layers.push_back(layer);
  }
  const auto expect_step = [&](std::size_t index, const std::string& name, const char* step) {
    EXPECT_THAT(layers[index], HasSubstr("/Name (" + name + ") "));
    EXPECT_THAT(layers[index], HasSubstr("/GTS_ProcStepsGroup /Structural "));
    EXPECT_THAT(layers[index], HasSubstr("/GTS_ProcStepsType /" + std::string(step) + " "));
  };
  EXPECT_THAT(layers[0], HasSubstr("/Name (Artwork) "));
  expect_step(1, "Cut", "Cutting");
  expect_step(2, "Crease", "Creasing");
  expect_step(3, "Glue", "Gluing");
  EXPECT_THAT(layers[4], HasSubstr("/Name (Marks) "));
  for (const std::size_t plain : {0u, 4u}) {
    EXPECT_EQ(layers[plain].find("GTS_"), std::string::npos);
  }
}

TEST_F(LayeredPdf, shows_its_lines_on_a_screen) {
  const auto drawn = [&](const std::string& pdf, const char* name) {
    EXPECT_EQ(run({"pdftoppm", "-r", "100", "-singlefile", pdf, folder_.path(name)}).exit_code, 0);
    return read_ppm(folder_.read(std::string(name) + ".ppm"));
  };
  EXPECT_GT(difference(drawn(lined_, "l"), drawn(bare_, "b")).mean, 0.3);
}

}  // namespace
}  // namespace quoin::outside
