#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "formats/pdf/inspection.h"
#include "formats/pdf/pdf.h"
#include "formats/png/png.h"

namespace quoin {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;
using testing::SizeIs;

constexpr Rect card{{0_mm, 0_mm}, {63_mm, 88_mm}};
constexpr Rect bled = grown(card, 3_mm);

Item rectangle(Rect where, Paint paint) {
  Item item;
  item.what = ShapeItem{Path::rectangle(where), paint, {}};
  return item;
}

/// Draws cards in a game that has one opaque and one clear picture.
class WritePdf : public testing::Test {
 protected:
  WritePdf() {
    Raster raster{4, 4, std::vector<std::uint32_t>(16, 0xff336699)};
    world_.put("opaque.png", write_png(raster, 300));
    raster.pixels[5] = 0;
    world_.put("clear.png", write_png(raster, 300));
  }

  Item picture(const std::string& path) {
    Diagnostics found;
    PicturePtr opened = shelf_.open(path, {}, found).value();
    Item item;
    item.what = PictureItem{opened, {{10_mm, 10_mm}, {40_mm, 40_mm}}, card, false};
    return item;
  }

  static Symbol symbol(std::vector<Item> items) {
    return {bled, [items] { return Scene{items}; }};
  }

  static Page page(const std::vector<int>& symbols) {
    Page page;
    page.media = {210_mm, 297_mm};
    page.trim = {{10_mm, 10_mm}, {190_mm, 277_mm}};
    page.bleed = grown(page.trim, 3_mm);
    for (const int each : symbols) {
      const Rect trim{{Mm{10 + 63.0 * static_cast<double>(page.placements.size())}, 20_mm},
                      card.size};
      page.placements.push_back({each, Affine::move(trim.at - Point{}), trim});
    }
    return page;
  }

  Bytes written(const std::vector<Symbol>& symbols, const Document& document) {
    const Result<DrawnSymbols> drawn = DrawnSymbols::draw(symbols, shelf_, {});
    return write_pdf(document, drawn.value(), shelf_).value();
  }

  pdf::Inspection inspected(const std::vector<Symbol>& symbols, std::vector<Page> pages) {
    Document document;
    document.title = "Trial";
    document.language = "en";
    document.pages = std::move(pages);
    return pdf::inspect(written(symbols, document));
  }

  MemoryWorld world_;
  PictureShelf shelf_{world_};
};

TEST_F(WritePdf, leaves_nothing_to_find_fault_with) {
  Item soft = rectangle(card, Colour{1, 0, 0, 0.5});
  soft.opacity = 0.7;
  const LinearGradient sky{{0_mm, 0_mm}, {0_mm, 88_mm}, {{black, 0}, {Colour{1, 1, 1, 0}, 1}}};
  const pdf::Inspection found =
      inspected({symbol({rectangle(bled, sky), picture("clear.png"), picture("opaque.png"), soft})},
                {page({0, 0, 0})});
  EXPECT_THAT(found.faults, IsEmpty());
  EXPECT_EQ(found.version, "1.7");
}

/// A title as boxes have it: letters filled with a gradient, three lines round them, a hard shadow.
Item lettering(Mm blur) {
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
  item.shadow = Shadow{Colour{0, 0, 0, 0.5}, {0.6_mm, 0.8_mm}, blur};
  return item;
}

TEST_F(WritePdf, keeps_lettering_with_lines_gradient_and_hard_shadow_as_vectors) {
  const auto hard = inspected({symbol({lettering(0_mm)})}, {page({0})});
  EXPECT_THAT(hard.images, IsEmpty());
  EXPECT_THAT(hard.faults, IsEmpty());
  // A soft shadow is the one part that needs pixels.
  EXPECT_THAT(inspected({symbol({lettering(1_mm)})}, {page({0})}).images, SizeIs(2));
}

TEST_F(WritePdf, holds_a_picture_once_however_many_drawings_show_it) {
  const pdf::Inspection found =
      inspected({symbol({picture("opaque.png")}), symbol({picture("opaque.png")})},
                {page({0, 1, 0}), page({1, 1})});
  ASSERT_THAT(found.images, SizeIs(1));
  EXPECT_EQ(found.images[0].width, 4);
  EXPECT_EQ(found.images[0].space, "ICCBased 3");
}

TEST_F(WritePdf, holds_a_picture_of_drawings_and_of_pages_themselves_once) {
  Page sheet = page({0});
  sheet.own.items.push_back(picture("opaque.png"));
  const pdf::Inspection found = inspected({symbol({picture("opaque.png")})}, {sheet});
  EXPECT_THAT(found.images, SizeIs(1));
}

TEST_F(WritePdf, leaves_out_drawings_that_no_page_places) {
  const std::vector<Symbol> symbols{symbol({picture("opaque.png")}),
                                    symbol({rectangle(card, black)})};
  const pdf::Inspection found = inspected(symbols, {page({1})});
  EXPECT_THAT(found.images, IsEmpty());
  EXPECT_EQ(found.forms, 1);
}

TEST_F(WritePdf, makes_a_page_a_group_only_where_something_is_transparent) {
  const std::vector<Symbol> symbols{symbol({picture("clear.png")}),
                                    symbol({picture("opaque.png")})};
  const pdf::Inspection found = inspected(symbols, {page({0}), page({1})});
  EXPECT_TRUE(found.pages[0].has_group);
  EXPECT_FALSE(found.pages[1].has_group);
}

TEST_F(WritePdf, puts_items_of_a_page_on_their_layers) {
  Page sheet = page({0});
  for (const Layer layer : {Layer::mark, Layer::cut, Layer::mark}) {
    sheet.own.items.push_back(rectangle({{5_mm, 5_mm}, {1_mm, 1_mm}}, black));
    sheet.own.items.back().layer = layer;
  }
  const std::vector<Symbol> symbols{symbol({rectangle(card, black)})};
  EXPECT_THAT(inspected(symbols, {sheet}).layers, ElementsAre("Artwork", "Cut", "Marks"));
  EXPECT_THAT(inspected(symbols, {page({0})}).layers, ElementsAre("Artwork", "Marks"));
}

TEST_F(WritePdf, tells_the_printer_how_to_print_it) {
  Document document;
  document.duplex = Flip::short_edge;
  document.pages = {page({})};
  const auto wishes = pdf::inspect(written({}, document)).viewer_preferences;
  EXPECT_EQ(wishes.at("PrintScaling"), "None");
  EXPECT_EQ(wishes.at("Duplex"), "DuplexFlipShortEdge");
  EXPECT_EQ(wishes.at("PickTrayByPDFSize"), "true");
  EXPECT_EQ(wishes.at("DisplayDocTitle"), "true");
}

TEST_F(WritePdf, says_title_language_and_page_labels) {
  Page back = page({0});
  back.label = "back 1 – Rückseite";
  const pdf::Inspection found = inspected({symbol({rectangle(card, black)})}, {page({0}), back});
  EXPECT_EQ(found.information.at("Title"), "Trial");
  EXPECT_EQ(found.language, "en");
  EXPECT_EQ(found.pages[0].label, "");
  EXPECT_EQ(found.pages[1].label, "back 1 – Rückseite");
}

TEST_F(WritePdf, cuts_boxes_to_lie_in_each_other) {
  Page sheet = page({});
  sheet.trim = {};
  sheet.bleed = grown(Rect{{}, sheet.media}, 3_mm);
  const pdf::Inspection found = inspected({}, {sheet});
  EXPECT_THAT(found.faults, IsEmpty());
  EXPECT_NEAR(found.pages[0].trim.right, 595.2756, 1e-3);
  EXPECT_NEAR(found.pages[0].bleed.left, 0, 1e-9);
}

TEST_F(WritePdf, writes_the_same_bytes_for_the_same_document) {
  const std::vector<Symbol> symbols{symbol({picture("clear.png"), rectangle(card, black)})};
  Document document;
  document.title = "Twice";
  document.pages = {page({0, 0})};
  EXPECT_EQ(written(symbols, document), written(symbols, document));
}

TEST_F(WritePdf, writes_several_documents_from_one_drawing) {
  const Result<DrawnSymbols> drawn =
      DrawnSymbols::draw({symbol({picture("opaque.png")})}, shelf_, {});
  Document document;
  document.pages = {page({0})};
  const Bytes first = write_pdf(document, drawn.value(), shelf_).value();
  EXPECT_EQ(write_pdf(document, drawn.value(), shelf_).value(), first);
}

TEST_F(WritePdf, writes_thousands_of_pages) {
  const pdf::Inspection found =
      inspected({symbol({rectangle(card, black)})}, std::vector<Page>(5000, page({0})));
  EXPECT_THAT(found.pages, SizeIs(5000));
  EXPECT_THAT(found.faults, IsEmpty());
}

TEST_F(WritePdf, stops_when_it_is_told_to) {
  int asked = 0;
  const Result<DrawnSymbols> drawn =
      DrawnSymbols::draw({symbol({}), symbol({}), symbol({})}, shelf_, [&](int done) {
        asked = done;
        return done < 2;
      });
  ASSERT_FALSE(drawn.ok());
  EXPECT_EQ(asked, 2);
  EXPECT_EQ(drawn.why()[0].id, Id::pdf_cancelled);
  EXPECT_EQ(drawn.why()[0].message, "the drawing was stopped after 2 of 3 drawings");
}

TEST_F(WritePdf, says_which_page_is_too_large_and_which_too_small) {
  Page banner = page({}), speck = page({});
  banner.media = {210_mm, 6000_mm};
  speck.media = {0_mm, 5_mm};
  Document document;
  document.pages = {page({}), banner, speck};
  const Result<DrawnSymbols> nothing = DrawnSymbols::draw({}, shelf_, {});
  const Result<Bytes> file = write_pdf(document, nothing.value(), shelf_);
  ASSERT_FALSE(file.ok());
  ASSERT_THAT(file.why(), SizeIs(2));
  EXPECT_EQ(file.why()[0].message,
            "page 2 is 210.0 x 6000.0 mm, and a PDF page is at most 5080.0 mm");
  EXPECT_EQ(file.why()[0].place.piece, "page 2");
  EXPECT_EQ(file.why()[1].message, "page 3 is 0.0 x 5.0 mm, and a PDF page is at least 1.1 mm");
}

TEST_F(WritePdf, refuses_a_page_of_no_known_size) {
  Page page = WritePdf::page({});
  page.media.width = Mm{std::numeric_limits<double>::quiet_NaN()};
  Document document;
  document.pages = {page};
  const Result<DrawnSymbols> nothing = DrawnSymbols::draw({}, shelf_, {});
  EXPECT_FALSE(write_pdf(document, nothing.value(), shelf_).ok());
}

}  // namespace
}  // namespace quoin
