#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <libdeflate.h>

#include <stdexcept>

#include "formats/png/png.h"
#include "formats/svg/markup.h"
#include "formats/svg/svg.h"

namespace quoin::svg {
namespace {

using testing::HasSubstr;
using testing::Not;

class WriteSvg : public testing::Test {
 protected:
  WriteSvg() {
    world_.put("dot.png", write_png({2, 1, {0xffff0000, 0xff0000ff}}, 300));
    world_.put("leaf.svg",
               "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 10 20'>"
               "<path d='M0 0H10V20Z'/></svg>");
  }

  static Item shape(Layer layer, Path path, Paint fill, Mm line = {}) {
    Stroke stroke;
    stroke.paint = black;
    stroke.width = line;
    Item item;
    item.layer = layer;
    item.what = ShapeItem{std::move(path), std::move(fill), stroke};
    return item;
  }

  Item picture(const char* name, Rect to) {
    Diagnostics found;
    Item item;
    item.what = PictureItem{shelf_.open(name, {}, found).value(), to, to, false};
    return item;
  }

  static Drawing drawing(std::vector<Item> items) {
    return {"Trial & error", {{-3_mm, -3_mm}, {60_mm, 40_mm}}, {std::move(items)}};
  }

  std::string written(std::vector<Item> items, const LayerSet& layers) {
    return write_svg(drawing(std::move(items)), layers, shelf_).value();
  }

  MemoryWorld world_;
  PictureShelf shelf_{world_};
};

TEST_F(WriteSvg, is_a_page_at_true_size_with_a_group_for_each_layer) {
  const Path square = Path::rectangle({{0_mm, 0_mm}, {10_mm, 10_mm}});
  EXPECT_EQ(
      written({shape(Layer::crease, square, NoPaint{}, 0.05_mm),
               shape(Layer::cut, square, NoPaint{}, 0.5_mm), shape(Layer::art, square, black)},
              {Layer::cut, Layer::crease, Layer::glue}),
      "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
      "<svg xmlns=\"http://www.w3.org/2000/svg\" xmlns:xlink=\"http://www.w3.org/1999/xlink\" "
      "version=\"1.1\" width=\"60mm\" height=\"40mm\" viewBox=\"0 0 60 40\">\n"
      "<title>Trial &amp; error</title>\n"
      "<g id=\"cut\">\n<title>Cut along these lines</title>\n"
      "<path d=\"M3 3L13 3L13 13L3 13Z\" fill=\"none\" stroke=\"#000000\" stroke-width=\"0.1\" "
      "stroke-linejoin=\"round\"/>\n</g>\n"
      "<g id=\"crease\">\n<title>Crease along these lines</title>\n"
      "<path d=\"M3 3L13 3L13 13L3 13Z\" fill=\"none\" stroke=\"#000000\" stroke-width=\"0.05\" "
      "stroke-linejoin=\"round\"/>\n</g>\n"
      "</svg>\n");
}

TEST_F(WriteSvg, gives_filled_areas_of_machine_layers_an_outline_only) {
  const Path square = Path::rectangle({{0_mm, 0_mm}, {10_mm, 10_mm}});
  const std::string svg =
      written({shape(Layer::glue, square, Colour{0, 1, 0, 0.3})}, {Layer::glue});
  EXPECT_THAT(svg, HasSubstr("fill=\"none\" stroke=\"#00ff00\" stroke-width=\"0.1\""));
  EXPECT_THAT(svg, Not(HasSubstr("opacity")));
}

TEST_F(WriteSvg, keeps_gradients_clips_dashes_and_opacities_of_art) {
  const LinearGradient sky{{0_mm, 0_mm}, {0_mm, 10_mm}, {{black, 0}, {Colour{1, 1, 1, 0.5}, 1}}};
  Item item = shape(Layer::art, Path::rectangle({{}, {10_mm, 10_mm}}), sky, 0.4_mm);
  std::get<ShapeItem>(item.what).stroke.dash = {2_mm, 1_mm};
  std::get<ShapeItem>(item.what).stroke.join = LineJoin::mitre;
  item.clip = Path::rectangle({{}, {5_mm, 5_mm}});
  item.opacity = 0.25;
  item.map = Affine::scale(2, 1);
  const std::string svg = written({item, item}, {Layer::art});
  EXPECT_THAT(svg, HasSubstr("<linearGradient id=\"g1\" gradientUnits=\"userSpaceOnUse\" "
                             "x1=\"0\" y1=\"0\" x2=\"0\" y2=\"10\">"
                             "<stop offset=\"0\" stop-color=\"#000000\"/>"
                             "<stop offset=\"1\" stop-color=\"#ffffff\" stop-opacity=\"0.5\"/>"));
  EXPECT_THAT(svg, HasSubstr("<g transform=\"matrix(2 0 0 1 0 0)\" opacity=\"0.25\">\n"
                             "<g clip-path=\"url(#c1)\">\n"));
  EXPECT_THAT(svg, HasSubstr("fill=\"url(#g1)\" stroke=\"#000000\" stroke-width=\"0.4\" "
                             "stroke-miterlimit=\"10\" stroke-dasharray=\"2 1\""));
  EXPECT_THAT(svg, Not(HasSubstr("\"g2\"")));  // the second item needs no second gradient
  EXPECT_THAT(svg, HasSubstr("<g id=\"art\" transform=\"matrix(1 0 0 1 3 3)\">"));
}

TEST_F(WriteSvg, holds_each_picture_once) {
  const Rect here{{0_mm, 0_mm}, {10_mm, 5_mm}}, there{{20_mm, 0_mm}, {4_mm, 4_mm}};
  const std::string svg = written({picture("dot.png", here), picture("dot.png", there),
                                   picture("leaf.svg", {{}, {10_mm, 10_mm}})},
                                  {Layer::art});
  EXPECT_THAT(svg, HasSubstr("<image id=\"p1\" width=\"2\" height=\"1\" "
                             "xlink:href=\"data:image/png;base64,"));
  EXPECT_THAT(svg, HasSubstr("<use xlink:href=\"#p1\" transform=\"matrix(5 0 0 5 0 0)\"/>"));
  EXPECT_THAT(svg, HasSubstr("<use xlink:href=\"#p1\" transform=\"matrix(2 0 0 4 20 0)\"/>"));
  EXPECT_THAT(svg, HasSubstr("<use xlink:href=\"#p2\" transform=\"matrix(1 0 0 0.5 0 0)\"/>"));
  EXPECT_THAT(svg, HasSubstr("data:image/svg+xml;base64,"));
  EXPECT_THAT(svg, Not(HasSubstr("\"p3\"")));
}

TEST_F(WriteSvg, says_which_picture_is_damaged) {
  // Noise where deflated rows belong, under a check sum that fits.
  Bytes png = write_png({64, 64, std::vector<std::uint32_t>(64 * 64, 0x80336699)}, 300);
  const std::size_t data = png.find("IDAT") + 4, sum = png.find("IEND") - 8;
  for (std::size_t at = data + 2; at < sum; ++at) png[at] = '\x55';
  const std::uint32_t crc = libdeflate_crc32(0, png.data() + data - 4, sum - data + 4);
  for (std::size_t k = 0; k < 4; ++k) png[sum + k] = static_cast<char>(crc >> (24 - 8 * k) & 0xff);
  world_.put("torn.png", png);
  Diagnostics found;
  Result<PicturePtr> opened = shelf_.open("torn.png", {}, found);
  ASSERT_TRUE(opened.ok()) << "only decoding finds this fault";
  Item item;
  item.what = PictureItem{opened.value(), {{}, {5_mm, 5_mm}}, {}, false};
  const Result<Bytes> svg = write_svg(drawing({item}), {Layer::art}, shelf_);
  ASSERT_FALSE(svg.ok());
  EXPECT_EQ(svg.why()[0].id, Id::picture_damaged);
}

TEST_F(WriteSvg, makes_letters_outlines_and_their_outline_a_line_beneath) {
  Typesetter typesetter({});
  TextItem text;
  text.block.runs.push_back({"Wrack", false, false, nullptr});
  text.block.box = {40_mm, 10_mm};
  text.at = {5_mm, 5_mm};
  text.set = typesetter.set(text.block);
  Item item;
  item.what = text;
  item.outline = Outline{white, 0.5_mm};
  const std::string svg = written({item}, {Layer::art});
  EXPECT_THAT(svg, Not(HasSubstr("<text")));
  EXPECT_THAT(svg, Not(HasSubstr("<image")));
  const std::size_t line = svg.find("stroke=\"#ffffff\" stroke-width=\"1\"");
  const std::size_t fill = svg.find("fill=\"#000000\"");
  ASSERT_NE(line, std::string::npos);
  ASSERT_NE(fill, std::string::npos);
  EXPECT_LT(line, fill);
}

TEST_F(WriteSvg, makes_soft_shadows_pixels) {
  Item item = shape(Layer::art, Path::rectangle({{}, {10_mm, 10_mm}}), black);
  item.shadow = Shadow{black, {1_mm, 1_mm}, 2_mm};
  const std::string svg = written({item}, {Layer::art});
  EXPECT_LT(svg.find("<use xlink:href=\"#p1\""), svg.find("<path d="));
}

/// A title as boxes have it: letters filled with a gradient, three lines round them, a hard shadow.
Item lettering() {
  Typesetter typesetter({});
  TextItem text;
  text.block.runs = {{"Tide", false, false, nullptr}};
  text.block.box = {40_mm, 12_mm};
  text.block.style.type_size = 8_mm;
  text.block.style.fill =
      LinearGradient{{0_mm, 0_mm}, {0_mm, 12_mm}, {{white, 0}, {Colour{0.9, 0.6, 0.2, 1}, 1}}};
  for (const Mm width : {2_mm, 1.2_mm, 0.4_mm}) {
    Stroke line;
    line.paint = Colour{width / 2_mm, 0, 0, 1};
    line.width = width;
    text.block.style.strokes.push_back(line);
  }
  text.at = {5_mm, 5_mm};
  text.set = typesetter.set(text.block);
  Item item;
  item.what = text;
  item.shadow = Shadow{Colour{0, 0, 0, 0.5}, {0.6_mm, 0.8_mm}, 0_mm};
  return item;
}

TEST_F(WriteSvg, keeps_lettering_with_lines_gradient_and_hard_shadow_as_paths) {
  const std::string svg = written({lettering()}, {Layer::art});
  EXPECT_THAT(svg, Not(HasSubstr("<image")));
  EXPECT_THAT(svg, Not(HasSubstr("data:")));
  const std::size_t shadow = svg.find("opacity=\"0.5\"");
  const std::size_t widest = svg.find("stroke=\"#ff0000\" stroke-width=\"2\"");
  const std::size_t inner = svg.find("stroke-width=\"0.4\"", widest);
  const std::size_t letters = svg.find("fill=\"url(#", inner);
  ASSERT_NE(letters, std::string::npos);
  EXPECT_LT(shadow, widest);
  EXPECT_LT(widest, inner);
  EXPECT_LT(inner, letters);
}

TEST_F(WriteSvg, keeps_hard_shadows_of_shapes_as_shapes_and_of_clear_ones_as_pixels) {
  Item item = shape(Layer::art, Path::rectangle({{}, {10_mm, 10_mm}}), Colour{1, 0, 0, 1});
  item.shadow = Shadow{Colour{0, 0, 1, 1}, {1_mm, 2_mm}, 0_mm};
  const std::string solid = written({item}, {Layer::art});
  EXPECT_THAT(solid, HasSubstr("<g transform=\"matrix(1 0 0 1 1 2)\">\n<path d=\"M0 0L10 0L10 10L0 "
                               "10Z\" fill=\"#0000ff\"/>\n</g>"));
  std::get<ShapeItem>(item.what).fill = Colour{1, 0, 0, 0.5};
  EXPECT_THAT(written({item}, {Layer::art}), HasSubstr("<image"));
}

TEST_F(WriteSvg, gives_the_same_bytes_each_time) {
  Item item = picture("leaf.svg", {{}, {10_mm, 10_mm}});
  item.shadow = Shadow{black, {1_mm, 1_mm}, 2_mm};
  EXPECT_EQ(written({item}, {Layer::art}), written({item}, {Layer::art}));
}

TEST_F(WriteSvg, refuses_a_drawing_without_size) {
  EXPECT_THROW((void)write_svg({}, {Layer::cut}, shelf_), std::logic_error);
}

TEST(PathData, says_every_step) {
  Path path;
  path.line_to({9_mm, 9_mm});  // before a move: nowhere
  path.move_to({0_mm, -0.5_mm}).line_to({1.23456_mm, 2_mm});
  path.curve_to({1_mm, 2_mm}, {3_mm, 4_mm}, {5_mm, 6_mm}).close();
  EXPECT_EQ(path_data(path), "M0 -0.5L1.2346 2C1 2 3 4 5 6Z");
}

// RFC 4648, section 10.
TEST(DataAddress, codes_the_published_examples) {
  const std::pair<const char*, const char*> examples[] = {{"", ""},
                                                          {"f", "Zg=="},
                                                          {"fo", "Zm8="},
                                                          {"foo", "Zm9v"},
                                                          {"foob", "Zm9vYg=="},
                                                          {"fooba", "Zm9vYmE="},
                                                          {"foobar", "Zm9vYmFy"}};
  for (const auto& [plain, coded] : examples) {
    EXPECT_EQ(data_address("text/plain", plain), std::string("data:text/plain;base64,") + coded);
  }
}

}  // namespace
}  // namespace quoin::svg
