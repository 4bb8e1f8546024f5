#include "pack/box_files.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>

#include "formats/dxf/dxf.h"
#include "formats/pdf/pdf.h"
#include "formats/svg/svg.h"
#include "programs.h"
#include "sample_cards.h"
#include "tables.h"

namespace quoin::outside {
namespace {

using testing::Contains;
using testing::HasSubstr;

/// A box of that kind for 54 cards of 63.5 x 88.9 x 0.30 mm, with art to its bleed: a gradient.
class BoxFiles : public testing::TestWithParam<const char*> {
 protected:
  BoxFiles() {
    game_.title = "Tidewrack";
    game_.stock.caliper = Mm{0.30};
    game_.cards.resize(1);
    game_.cards[0].copies = 54;
    game_.box.emplace();
    game_.box->kind = GetParam();
    game_.box->board.caliper = Mm{0.40};
    box_ = *pack::box_for_paper(game_).value;
    for (const fold::Part& part : box_.model.parts) {
      pieces::NetArt& art = art_.emplace_back();
      art.bleed = 3_mm;
      ShapeItem ground;
      ground.path = to_path(fold::inked_outline(part.net, art.bleed));
      ground.fill = LinearGradient{
          {0_mm, 0_mm}, {150_mm, 150_mm}, {{{0.95, 0.85, 0.6}, 0}, {{0.2, 0.4, 0.6}, 1}}};
      Item item;
      item.what = std::move(ground);
      art.printed.items.push_back(std::move(item));
    }
  }

  std::string written(const char* name, Document document) {
    Typesetter typesetter{{}};
    for (Page& page : document.pages) typeset(page.own, typesetter);
    const auto drawn = DrawnSymbols::draw(pack::box_symbols(box_, art_), cards_.shelf(), {});
    return folder_.put(name, write_pdf(std::move(document), drawn.value(), cards_.shelf()).value());
  }

  std::string shop() { return written("shop.pdf", pack::shop_box(game_, box_, art_)); }

  static std::vector<std::string> plates(const Folder& into, const std::string& pdf,
                                         const std::string& ppi) {
    const Answer answer = run({"gs", "-q", "-dBATCH", "-dNOPAUSE", "-dSAFER", "-sDEVICE=tiffsep",
                               "-r" + ppi, "-sOutputFile=" + into.path("%d.tif"), pdf});
    EXPECT_EQ(answer.exit_code, 0) << answer.words;
    return into.files();
  }

  static Pixels plate(const Folder& folder, const std::string& name) {
    const Answer answer = run({"convert", folder.path(name), "-colorspace", "sRGB", "-type",
                               "TrueColor", "-depth", "8", folder.path("plate.ppm")});
    EXPECT_EQ(answer.exit_code, 0) << answer.words;
    return read_ppm(folder.read("plate.ppm"));
  }

  SampleCards cards_;
  Folder folder_;
  game::Game game_;
  pieces::Box box_;
  pack::BoxArt art_;
};

// Ghostscript's separations: a plate for each layer of lines, on every page, with something on it.
TEST_P(BoxFiles, have_a_plate_for_each_layer_in_the_file_for_a_shop) {
  const Folder folder;
  const auto names = plates(folder, shop(), "127");
  for (std::size_t page = 1; page <= box_.model.parts.size(); ++page) {
    for (const char* layer : {"Cut", "Crease", "Glue", "Bleed", "Dimensions"}) {
      const std::string name = std::to_string(page) + "(" + layer + ").tif";
      ASSERT_THAT(names, Contains(name));
      const Pixels pixels = plate(folder, name);
      EXPECT_LT(*std::min_element(pixels.rgb.begin(), pixels.rgb.end()), 120) << name;
    }
  }
}

// The same pages without their lines: cyan, magenta, yellow and black are the same to the pixel.
TEST_P(BoxFiles, leave_the_art_below_their_lines_as_it_was) {
  Document bare = pack::shop_box(game_, box_, art_);
  for (Page& page : bare.pages) {
    std::erase_if(page.own.items, [](const Item& item) {
      return item.layer != Layer::mark && item.layer != Layer::art;
    });
  }
  const Folder with, without;
  (void)plates(with, shop(), "60");
  (void)plates(without, written("bare.pdf", std::move(bare)), "60");
  for (const char* ink : {"1(Cyan).tif", "1(Magenta).tif", "1(Yellow).tif", "1(Black).tif"}) {
    const Pixels plain = plate(without, ink);
    EXPECT_TRUE(plate(with, ink).rgb == plain.rgb) << ink;
  }
  const Pixels cyan = plate(without, "1(Cyan).tif");
  EXPECT_LT(*std::min_element(cyan.rgb.begin(), cyan.rgb.end()), 200) << "there is art";
}

// Keys and names of ISO 19593-1:2018, as MuPDF reads them.
TEST_P(BoxFiles, say_what_each_layer_is_for) {
  const std::string pdf = shop();
  std::string layers;
  for (int i = 1; i <= 7; ++i) {
    const std::string where = "trailer/Root/OCProperties/OCGs/" + std::to_string(i);
    for (const std::string& word : words_of(run({"mutool", "show", pdf, where}).words)) {
      layers += word + " ";
    }
  }
  for (const char* step : {"/GTS_ProcStepsGroup /Structural /GTS_ProcStepsType /Cutting",
                           "/GTS_ProcStepsGroup /Structural /GTS_ProcStepsType /Creasing",
                           "/GTS_ProcStepsGroup /Structural /GTS_ProcStepsType /Gluing",
                           "/GTS_ProcStepsGroup /Structural /GTS_ProcStepsType /Bleed",
                           "/GTS_ProcStepsGroup /Dimensions"}) {
    EXPECT_THAT(layers, HasSubstr(step));
  }
  EXPECT_EQ(run({"qpdf", "--check", pdf}).exit_code, 0);
}

/// The lengths of a net's cut and creases by the sides of its polygons.
struct Lengths {
  double cut = 0, crease = 0;
};
Lengths lengths_of(const fold::Net& net) {
  Lengths lengths;
  for (const Region& region : fold::cut_outline(net)) {
    for (std::size_t i = 0; i < region.outer.size(); ++i) {
      lengths.cut += length(region.outer[(i + 1) % region.outer.size()] - region.outer[i]).value;
    }
  }
  for (const fold::Slit& slit : net.slits) lengths.cut += length(slit.to - slit.from).value;
  for (const fold::Hinge& hinge : net.hinges) {
    lengths.crease += length(hinge.to - hinge.from).value;
  }
  return lengths;
}

// ezdxf measures what a machine is handed. Its arcs are true ones where the net's polygons are
// chords within 0.02 mm of them, so the cut may be a little longer.
TEST_P(BoxFiles, have_the_lengths_of_the_net_in_dxf) {
  for (const pack::BoxNet& net : pack::box_nets(box_, "Tidewrack")) {
    const std::string path =
        folder_.put("net.dxf", write_dxf(net.drawing, {Layer::cut, Layer::crease}));
    const Answer answer =
        run({"/usr/bin/python3", QUOIN_SOURCE_DIR "/tests/outside/readers/dxf_lengths.py", path});
    ASSERT_EQ(answer.exit_code, 0) << answer.words;
    const Lengths expected = lengths_of(*net.net);
    int found = 0;
    for (const std::string& line : lines_of(answer.words)) {
      const auto words = words_of(line);
      if (words.size() < 9) continue;
      const bool cut = words[1] == "CUT";
      EXPECT_NEAR(number(words[4]), cut ? expected.cut : expected.crease, cut ? 0.2 : 0.01)
          << net.name << " " << words[1];
      if (cut) {
        EXPECT_NEAR(number(words[7]) - number(words[5]), net.bounds.size.width.value, 0.03);
        EXPECT_NEAR(number(words[8]) - number(words[6]), net.bounds.size.height.value, 0.03);
      }
      ++found;
    }
    EXPECT_EQ(found, 2) << answer.words;
  }
}

// librsvg draws the cut alone; its ink is as wide and high as the net, in millimetres.
TEST_P(BoxFiles, have_the_size_of_the_net_in_svg) {
  for (const pack::BoxNet& net : pack::box_nets(box_, "Tidewrack")) {
    const std::string path =
        folder_.put("net.svg", write_svg(net.drawing, {Layer::cut}, cards_.shelf()).value());
    ASSERT_EQ(run({"rsvg-convert", "-f", "pdf", "-o", folder_.path("net.pdf"), path}).exit_code, 0);
    const std::string info = run({"pdfinfo", folder_.path("net.pdf")}).words;
    const auto words = words_of(info.substr(info.find("Page size:")));
    constexpr double point = 25.4 / 72;
    EXPECT_NEAR(number(words[2]) * point, net.bounds.size.width.value, 0.05);
    EXPECT_NEAR(number(words[4]) * point, net.bounds.size.height.value, 0.05);
  }
}

// The trim box of a sheet for home, as poppler reads it, is as large as the cuts on it.
TEST_P(BoxFiles, are_at_true_size_on_the_sheets_for_home) {
  const pack::BoxSheets sheets = pack::lay_box(game_, box_, {}, 1).value;
  ASSERT_FALSE(sheets.sheets.empty());
  const std::string pdf = written("home.pdf", pack::home_box(game_, box_, art_, sheets));
  const std::string info = run({"pdfinfo", "-box", pdf}).words;
  for (const std::string& line : lines_of(info)) {
    if (!line.starts_with("TrimBox:")) continue;
    const auto words = words_of(line);
    constexpr double point = 25.4 / 72;
    Rect all;
    for (const pack::NetPlace& place : sheets.sheets[0].nets) {
      const auto nets = pack::box_nets(box_, "");
      const Rect cut = bounds(place.map, nets[static_cast<std::size_t>(place.net)].bounds);
      all = all.size == Size{} ? cut : covering(all, cut);
    }
    EXPECT_NEAR((number(words[3]) - number(words[1])) * point, all.size.width.value, 0.02);
    EXPECT_NEAR((number(words[4]) - number(words[2])) * point, all.size.height.value, 0.02);
  }
  EXPECT_EQ(run({"qpdf", "--check", pdf}).exit_code, 0);
}

INSTANTIATE_TEST_SUITE_P(OfEachKind, BoxFiles, testing::Values("tuck", "lid", "sleeve"),
                         [](const auto& kind) { return std::string(kind.param); });

}  // namespace
}  // namespace quoin::outside
