#include "formats/pdf/spot_colours.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <stdexcept>

#include "formats/pdf/inspection.h"
#include "formats/pdf/pdf.h"

namespace quoin::pdf {
namespace {

using testing::AllOf;
using testing::ElementsAre;
using testing::HasSubstr;
using testing::IsEmpty;
using testing::Not;
using testing::Pair;

/// A page of 100 x 100 mm with a line on each layer.
class SpotColoursTest : public testing::Test {
 protected:
  SpotColoursTest() {
    page_.media = {100_mm, 100_mm};
    for (const Layer layer : {Layer::art, Layer::cut, Layer::crease, Layer::glue, Layer::bleed,
                              Layer::safe, Layer::dimension, Layer::mark}) {
      page_.own.items.push_back(line(layer));
    }
  }

  static Item line(Layer layer) {
    ShapeItem shape;
    shape.path.move_to({10_mm, 10_mm}).line_to({10_mm, 90_mm});
    shape.stroke.paint = black;
    shape.stroke.width = 0.3_mm;
    Item item;
    item.layer = layer;
    item.what = shape;
    return item;
  }

  Bytes written(LineWork line_work) {
    Document document;
    document.line_work = line_work;
    document.pages = {page_, page_};
    return write_pdf(document, DrawnSymbols::draw({}, shelf_, {}).value(), shelf_).value();
  }

  /// The operators of the form for these items.
  std::string content(std::vector<Item> items) {
    QPDF file;
    file.emptyPDF();
    ColourSpaces spaces(file);
    SpotColours spots(file, spaces);
    Object stream = spots.form(items, page_.media).object;
    const auto data = stream.getStreamData();
    return {reinterpret_cast<const char*>(data->getBuffer()), data->getSize()};
  }

  MemoryWorld world_;
  PictureShelf shelf_{world_};
  Page page_;
};

TEST_F(SpotColoursTest, are_one_for_each_layer_of_line_work) {
  const Inspection found = inspect(written(LineWork::spot_colours));
  EXPECT_THAT(found.faults, IsEmpty());
  EXPECT_THAT(found.layers, ElementsAre("Artwork", "Cut", "Crease", "Glue", "Bleed", "Safe area",
                                        "Dimensions", "Marks"));
  EXPECT_THAT(found.spot_colours,
              ElementsAre("Bleed", "Crease", "Cut", "Dimensions", "Glue", "Safe area"));
}

// ISO 19593-1:2018, tables 2 and 3, as the public model of PDF's dictionaries gives them.
TEST_F(SpotColoursTest, come_with_the_steps_of_making_that_they_stand_for) {
  const Inspection found = inspect(written(LineWork::spot_colours));
  EXPECT_THAT(found.steps,
              ElementsAre(Pair("Bleed", "Structural Bleed"), Pair("Crease", "Structural Creasing"),
                          Pair("Cut", "Structural Cutting"), Pair("Dimensions", "Dimensions"),
                          Pair("Glue", "Structural Gluing")));
}

TEST_F(SpotColoursTest, are_left_out_where_they_are_not_asked_for) {
  const Inspection found = inspect(written(LineWork::drawn));
  EXPECT_THAT(found.faults, IsEmpty());
  EXPECT_THAT(found.spot_colours, IsEmpty());
  EXPECT_THAT(found.steps, IsEmpty());
  EXPECT_THAT(found.layers, testing::SizeIs(8));
}

TEST_F(SpotColoursTest, draw_lines_in_points_with_y_up) {
  // 10 mm are 28.3465 points, 90 mm 255.1181, 0.3 mm 0.8504.
  EXPECT_EQ(content({line(Layer::cut)}),
            "/Over gs /Spot cs /Spot CS\n"
            "1 SCN 0.8504 w 0 J 1 j [] 0 d\n"
            "28.3465 255.1181 m\n28.3465 28.3465 l\nS\n");
}

TEST_F(SpotColoursTest, turn_opacity_into_tint) {
  Item area = line(Layer::glue);
  auto& shape = std::get<ShapeItem>(area.what);
  shape.path.line_to({90_mm, 90_mm}).close();
  shape.fill = Colour{0, 1, 0, 0.2};
  EXPECT_THAT(content({area}),
              AllOf(HasSubstr("0.2 scn\n"), HasSubstr("1 SCN"), HasSubstr("h\nB\n")));
  shape.stroke.width = 0_mm;
  EXPECT_THAT(content({area}), AllOf(HasSubstr("h\nf\n"), Not(HasSubstr("SCN"))));
}

TEST_F(SpotColoursTest, give_the_same_bytes_each_time) {
  EXPECT_EQ(written(LineWork::spot_colours), written(LineWork::spot_colours));
}

TEST_F(SpotColoursTest, refuse_gradients) {
  std::get<ShapeItem>(page_.own.items[1].what).fill = LinearGradient{};
  EXPECT_THROW((void)written(LineWork::spot_colours), std::logic_error);
}

}  // namespace
}  // namespace quoin::pdf
