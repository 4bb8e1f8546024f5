// What is drawn, looked at by programs that are not ours: text comes out of the PDF as it went in,
// fonts are embedded as fonts, and the page looks as the pixels that Quoin draws itself.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <fstream>
#include <iterator>

#include "programs.h"
#include "scene/scene.h"

namespace quoin {
namespace {

using outside::Folder;
using outside::run;
using ::testing::HasSubstr;
using ::testing::Not;

FontFile test_font(const std::string& name) {
  std::ifstream file(QUOIN_SOURCE_DIR "/tests/fonts/" + name, std::ios::binary);
  return {name, std::make_shared<const Bytes>(std::istreambuf_iterator<char>(file),
                                              std::istreambuf_iterator<char>())};
}

class Drawn : public ::testing::Test {
 protected:
  Item words(const std::string& markup, const std::string& family, Rect box) {
    TextItem text;
    std::vector<std::string> unknown;
    text.block.runs = read_markup(markup, {}, unknown);
    text.block.style.family = family;
    text.block.style.type_size = text.block.style.smallest_size = Mm{5};
    text.block.box = box.size;
    text.at = box.at;
    Item item;
    item.what = text;
    return item;
  }

  /// Records one page; the path of the PDF, whose units are 1/600 in.
  std::string recorded(Scene& scene, Size size) {
    typeset(scene, typesetter);
    PageRecorder recorder(shelf);
    recorder.page(size, [&](Canvas& canvas) { draw(scene, canvas); });
    PageRecorder::Recording recording = recorder.finish();
    EXPECT_TRUE(recording.found.empty());
    return folder.put("page.pdf", recording.pdf);
  }

  std::string read_back(const std::string& markup, const std::string& family) {
    Scene scene{{words(markup, family, {{Mm{5}, Mm{5}}, {Mm{170}, Mm{20}}})}};
    const outside::Answer answer = run({"pdftotext", recorded(scene, {Mm{180}, Mm{30}}), "-"});
    EXPECT_EQ(answer.exit_code, 0) << answer.words;
    std::string text = answer.words;
    // Marks of direction and the page's end are the program's own.
    for (const std::string mark : {"\u202A", "\u202B", "\u202C", "\u200E", "\u200F", "\f", "\n"})
      for (std::size_t at = text.find(mark); at != text.npos; at = text.find(mark))
        text.erase(at, mark.size());
    return text;
  }

  MemoryWorld world{{{"soft.svg",
                      "<svg xmlns='http://www.w3.org/2000/svg' viewBox='0 0 10 10'>"
                      "<filter id='f'><feGaussianBlur stdDeviation='0.5'/></filter>"
                      "<path d='M2 2H8V8H2Z' fill='#f00' filter='url(#f)'/></svg>"}}};
  PictureShelf shelf{world};
  Typesetter typesetter{{test_font("NotoSansHebrew-Regular.ttf"),
                         test_font("NotoNaskhArabic-Regular.ttf"),
                         test_font("NotoSansDevanagari-Regular.ttf")}};
  Folder folder;
};

TEST_F(Drawn, text_comes_out_of_the_pdf_as_it_went_in) {
  EXPECT_EQ(read_back("Bladder Wrack: 2 × affinity, first flight", house_family),
            "Bladder Wrack: 2 × affinity, first flight");
  EXPECT_EQ(read_back("Žluťoučký kůň, ελληνικά, кириллица", house_family),
            "Žluťoučký kůň, ελληνικά, кириллица");
  EXPECT_EQ(read_back("זהו קלף מן הים", "Noto Sans Hebrew"), "זהו קלף מן הים");
  EXPECT_EQ(read_back("هذه بطاقة قديمة من البحر", "Noto Naskh Arabic"), "هذه بطاقة قديمة من البحر");
  EXPECT_EQ(read_back("यह समुद्र का पत्ता है", "Noto Sans Devanagari"), "यह समुद्र का पत्ता है");
}

TEST_F(Drawn, hyphens_leave_no_mark_but_where_a_line_ends) {
  Item item = words("concatenation of hyphenation", house_family, {{}, {Mm{24}, Mm{40}}});
  std::get<TextItem>(item.what).block.style.hyphenate = true;
  Scene scene{{item}};
  const std::string text = run({"pdftotext", "-raw", recorded(scene, {Mm{40}, Mm{40}}), "-"}).words;
  EXPECT_THAT(text, Not(HasSubstr("\u00ADo")));
  const std::vector<std::string> lines = outside::lines_of(text);
  ASSERT_GE(lines.size(), 3U);
  EXPECT_THAT(lines[0], ::testing::StartsWith("concate"));
}

TEST_F(Drawn, fonts_are_embedded_as_fonts) {
  Item stroked = words("Outlined **and** filled", house_family, {{Mm{5}, Mm{5}}, {Mm{90}, Mm{10}}});
  TextStyle& style = std::get<TextItem>(stroked.what).block.style;
  style.strokes = {Stroke{black, Mm{0.6}, {}}};
  style.fill = LinearGradient{{}, {Mm{0}, Mm{6}}, {{white, 0}, {black, 1}}};
  Scene scene{
      {stroked, words("/ *italic* קלף", house_family, {{Mm{5}, Mm{20}}, {Mm{90}, Mm{10}}})}};
  const std::string path = recorded(scene, {Mm{100}, Mm{40}});
  const std::vector<std::string> lines = outside::lines_of(run({"pdffonts", path}).words);
  ASSERT_GE(lines.size(), 6U);  // two of head, then regular, bold, italic and Hebrew at least
  for (std::size_t i = 2; i < lines.size(); ++i) {
    EXPECT_THAT(lines[i], HasSubstr("Noto"));
    EXPECT_THAT(lines[i], HasSubstr("yes yes yes"));  // embedded, a subset, with Unicode
    EXPECT_THAT(lines[i], Not(HasSubstr("Type 3")));
  }
  EXPECT_THAT(run({"pdftotext", path, "-"}).words, HasSubstr("Outlined and filled"));
  EXPECT_EQ(outside::lines_of(run({"pdfimages", "-list", path}).words).size(), 2U);  // none
}

TEST_F(Drawn, what_must_be_pixels_is_made_at_600_ppi_and_once) {
  Diagnostics found;
  const PicturePtr soft = *std::move(shelf.open("soft.svg", {}, found)).or_report(found);
  Scene scene;
  for (int i = 0; i < 3; ++i) {
    const Rect to{{Mm{2 + i * 12.0}, Mm{2}}, {Mm{10}, Mm{10}}};
    Item item;
    item.what = PictureItem{soft, to, to, false};
    scene.items.push_back(item);
  }
  const auto lines =
      outside::lines_of(run({"pdfimages", "-list", recorded(scene, {Mm{40}, Mm{14}})}).words);
  ASSERT_EQ(lines.size(), 2 + 3 * 2U);  // two of head; an image and its mask for each use
  const std::vector<std::string> first = outside::words_of(lines[2]);
  for (std::size_t i = 2; i < lines.size(); ++i) {
    const std::vector<std::string> words = outside::words_of(lines[i]);
    ASSERT_GE(words.size(), 14U);
    EXPECT_EQ(words[12], "72") << lines[i];  // of the page's units, 600 to an inch
    EXPECT_EQ(words[10], first[10]) << lines[i];
  }
}

TEST_F(Drawn, pages_look_as_the_pixels_do) {
  Scene scene{{words("Take *two* **cards** from the shore", house_family,
                     {{Mm{5}, Mm{5}}, {Mm{50}, Mm{30}}})}};
  Item shape;
  shape.what =
      ShapeItem{Path::rounded_rectangle({{Mm{60}, Mm{5}}, {Mm{30}, Mm{20}}}, Mm{4}),
                LinearGradient{{Mm{60}, Mm{5}}, {Mm{90}, Mm{25}}, {{white, 0}, {black, 1}}},
                Stroke{Colour{0.8, 0.1, 0.1, 1}, Mm{1.5}, {Mm{3}, Mm{2}}}};
  shape.opacity = 0.7;
  shape.map = Affine::turn_about({Mm{75}, Mm{15}}, Angle::degrees(15));
  shape.shadow = Shadow{{0, 0, 0, 0.5}, {Mm{1}, Mm{2}}, Mm{0}};
  shape.outline = Outline{{0, 0.4, 0.8, 1}, Mm{1}};
  scene.items.push_back(shape);
  const Size size{Mm{25.4 * 4}, Mm{25.4 * 2}};
  const std::string path = recorded(scene, size);
  // 150 pixels to 600 units, where the program counts 72 units an inch.
  ASSERT_EQ(run({"pdftoppm", "-r", "18", "-singlefile", path, folder.path("page")}).exit_code, 0);
  const outside::Pixels theirs = outside::read_ppm(folder.read("page.ppm"));
  ImageCanvas canvas(shelf, size, 150, ImageCanvas::Background::paper);
  draw(scene, canvas.canvas());
  const Raster raster = canvas.raster();
  outside::Pixels ours{raster.width, raster.height, {}};
  for (const std::uint32_t pixel : raster.pixels)
    for (const int shift : {16, 8, 0})
      ours.rgb.push_back(static_cast<std::uint8_t>(pixel >> shift & 0xFF));
  const outside::Difference difference = outside::difference(ours, theirs);
  EXPECT_LT(difference.mean, 1.0);
  EXPECT_LE(difference.largest_on_flat, 6);
  EXPECT_GT(difference.flat_share, 0.7);
}

}  // namespace
}  // namespace quoin
