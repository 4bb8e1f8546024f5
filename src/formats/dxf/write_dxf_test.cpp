#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <stdexcept>

#include "formats/dxf/dxf.h"

namespace quoin::dxf {
namespace {

using testing::HasSubstr;
using testing::Not;

Item stroked(Layer layer, Path path) {
  Item item;
  item.layer = layer;
  Stroke stroke;
  stroke.paint = black;
  stroke.width = 0.2_mm;
  item.what = ShapeItem{std::move(path), NoPaint{}, stroke};
  return item;
}

/// The file with line ends of one character and without the blanks before numbers.
std::string plain(const Bytes& dxf) {
  std::string text;
  for (const char c : dxf) {
    if (c != '\r' && c != ' ') text += c;
  }
  return text;
}

std::string written(std::vector<Item> items, const LayerSet& layers) {
  return plain(write_dxf({"", {{-5_mm, -5_mm}, {100_mm, 50_mm}}, {std::move(items)}}, layers));
}

TEST(WriteDxf, puts_a_line_on_its_layer_with_y_up_from_the_bottom_left) {
  Path path;
  path.move_to({0_mm, 0_mm}).line_to({10_mm, 45_mm});
  EXPECT_THAT(written({stroked(Layer::cut, path)}, {Layer::cut}),
              HasSubstr("ENTITIES\n0\nLINE\n8\nCUT\n10\n5\n20\n45\n30\n0\n11\n15\n21\n0\n31\n0\n0\n"
                        "ENDSEC\n0\nEOF\n"));
}

TEST(WriteDxf, says_release_size_and_unit) {
  const std::string dxf = written({}, {Layer::cut});
  EXPECT_THAT(dxf, HasSubstr("999\nAlllengthsaremillimetres:onedrawingunitis1mm.\n0\nSECTION"));
  EXPECT_THAT(dxf, HasSubstr("$ACADVER\n1\nAC1009\n"));
  EXPECT_THAT(dxf, HasSubstr("$EXTMAX\n10\n100\n20\n50\n"));
}

TEST(WriteDxf, has_a_layer_with_a_colour_for_each_that_is_used) {
  Path path;
  path.move_to({0_mm, 0_mm}).line_to({10_mm, 0_mm});
  const std::string dxf =
      written({stroked(Layer::crease, path), stroked(Layer::cut, path), stroked(Layer::mark, path)},
              {Layer::cut, Layer::crease, Layer::glue});
  EXPECT_THAT(dxf, HasSubstr("LAYER\n70\n3\n0\nLAYER\n2\n0\n70\n0\n62\n7\n6\nCONTINUOUS\n"
                             "0\nLAYER\n2\nCUT\n70\n0\n62\n1\n6\nCONTINUOUS\n"
                             "0\nLAYER\n2\nCREASE\n70\n0\n62\n5\n6\nCONTINUOUS\n0\nENDTAB\n"));
  EXPECT_THAT(dxf, Not(HasSubstr("GLUE")));
  EXPECT_THAT(dxf, Not(HasSubstr("MARK")));
}

TEST(WriteDxf, writes_single_arcs_as_arcs_counter_clockwise) {
  // The bottom right quarter of a circle about (20, 20) on the page: with y up, 270 to 360 degrees.
  constexpr double handle = 0.5522847498307936 * 10;
  Path path;
  path.move_to({30_mm, 20_mm});
  path.curve_to({30_mm, Mm{20 + handle}}, {Mm{20 + handle}, 30_mm}, {20_mm, 30_mm});
  const std::string arc = "ARC\n8\nCUT\n10\n25\n20\n25\n30\n0\n40\n10\n50\n270\n51\n";
  const std::string dxf = written({stroked(Layer::cut, path)}, {Layer::cut});
  EXPECT_THAT(dxf, HasSubstr(arc));
  Path back;
  back.move_to({20_mm, 30_mm});
  back.curve_to({Mm{20 + handle}, 30_mm}, {30_mm, Mm{20 + handle}}, {30_mm, 20_mm});
  EXPECT_EQ(written({stroked(Layer::cut, back)}, {Layer::cut}), dxf);
}

TEST(WriteDxf, keeps_an_outline_whole_with_bulges_for_its_arcs) {
  const Path rounded = Path::rounded_rectangle({{0_mm, 0_mm}, {30_mm, 20_mm}}, 3_mm);
  const std::string dxf = written({stroked(Layer::cut, rounded)}, {Layer::cut});
  EXPECT_THAT(dxf, HasSubstr("POLYLINE\n8\nCUT\n66\n1\n10\n0\n20\n0\n30\n0\n70\n1\n0\nVERTEX\n"));
  // Clockwise on the page is clockwise with y up too, and clockwise bulges are negative.
  std::size_t bulges = 0;
  for (std::size_t at = 0; (at = dxf.find("42\n-0.41421356\n", at)) != std::string::npos; ++at) {
    ++bulges;
  }
  EXPECT_EQ(bulges, 4U);
  EXPECT_THAT(dxf, HasSubstr("SEQEND\n8\nCUT\n"));
}

TEST(WriteDxf, ends_every_line_as_the_oldest_readers_expect) {
  const Bytes dxf = write_dxf({"", {{}, {10_mm, 10_mm}}, {}}, {Layer::cut});
  EXPECT_EQ(std::count(dxf.begin(), dxf.end(), '\r'), std::count(dxf.begin(), dxf.end(), '\n'));
  EXPECT_TRUE(dxf.ends_with("  0\r\nEOF\r\n"));
}

TEST(WriteDxf, refuses_pictures) {
  Item item;
  item.what = PictureItem{};
  EXPECT_THROW((void)written({item}, {Layer::art}), std::logic_error);
}

}  // namespace
}  // namespace quoin::dxf
