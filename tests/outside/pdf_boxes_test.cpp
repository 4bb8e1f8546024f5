#include <fmt/format.h>
#include <gtest/gtest.h>

#include "programs.h"
#include "sample_cards.h"
#include "tables.h"

namespace quoin::outside {
namespace {

/// The four numbers that poppler's pdfinfo prints of a box, to 1/100 point.
std::vector<double> box_of(const std::string& info, const std::string& name) {
  for (const std::string& line : lines_of(info)) {
    const std::vector<std::string> words = words_of(line);
    if (words.size() == 5 && words[0] == name + ":") {
      return {number(words[1]), number(words[2]), number(words[3]), number(words[4])};
    }
  }
  throw std::runtime_error("pdfinfo gives no " + name);
}

std::string page_size_line(const std::string& info) {
  for (const std::string& line : lines_of(info)) {
    if (line.starts_with("Page size:")) return line;
  }
  return {};
}

std::string info_of(const Page& page) {
  SampleCards cards;
  Document document;
  document.pages = {page};
  const Folder folder;
  const Answer answer = run({"pdfinfo", "-box", folder.put("sheet.pdf", cards.pdf({}, document))});
  EXPECT_EQ(answer.exit_code, 0) << answer.words;
  return answer.words;
}

constexpr double printed_step = 0.005 + 1e-9;  // pdfinfo rounds to 1/100 point

// ISO 216 (A and B), ISO 217 (RA and SRA) and ANSI/ASME Y14.1 (Letter, of 8.5 x 11 in) in
// millimetres; a point is 1/72 in (ISO 32000-1, 8.3.2.3) and an inch is 25.4 mm.
TEST(PdfPages, have_the_standard_sizes_in_points_upright_and_on_their_side) {
  for (const TableRow& row : rows_of("pdf_page_sizes.csv")) {
    const Size upright{Mm{number(row[2])}, Mm{number(row[3])}};
    const double width = number(row[4]), height = number(row[5]);
    const std::vector<double> box = box_of(info_of(SampleCards::page(upright, {})), "MediaBox");
    EXPECT_NEAR(box[2], width, printed_step) << row[0];
    EXPECT_NEAR(box[3], height, printed_step) << row[0];
    const std::vector<double> turned_box =
        box_of(info_of(SampleCards::page(turned(upright), {})), "MediaBox");
    EXPECT_NEAR(turned_box[2], height, printed_step) << row[0];
    EXPECT_NEAR(turned_box[3], width, printed_step) << row[0];
  }
}

// Poppler knows Letter and the ISO 216 A sizes by itself and prints their names (not A5: it takes
// the sides by the root of two, and A5's whole millimetres are more than a point off that).
TEST(PdfPages, are_recognised_by_their_size) {
  const auto line = [](Size size) { return page_size_line(info_of(SampleCards::page(size, {}))); };
  EXPECT_TRUE(line({210_mm, 297_mm}).ends_with("(A4)"));
  EXPECT_TRUE(line({297_mm, 420_mm}).ends_with("(A3)"));
  EXPECT_TRUE(line({420_mm, 594_mm}).ends_with("(A2)"));
  EXPECT_TRUE(line({215.9_mm, 279.4_mm}).ends_with("(letter)"));
}

TEST(PdfPages, have_their_bleed_and_trim_where_they_were_asked_for) {
  Page page = SampleCards::page({210_mm, 297_mm}, {});
  page.trim = {{10_mm, 20_mm}, {63_mm, 88_mm}};
  page.bleed = grown(page.trim, 3_mm);
  const std::string info = info_of(page);
  // 10 mm = 28.35 pt, 73 mm = 206.93 pt; from below 297 - 108 = 189 mm = 535.75 pt and
  // 277 mm = 785.20 pt.
  const std::vector<double> trim = box_of(info, "TrimBox"), bleed = box_of(info, "BleedBox");
  const std::vector<double> expected_trim{28.35, 535.75, 206.93, 785.20};
  const std::vector<double> expected_bleed{19.84, 527.24, 215.43, 793.70};
  for (std::size_t i = 0; i < 4; ++i) {
    EXPECT_NEAR(trim[i], expected_trim[i], 0.0101) << i;
    EXPECT_NEAR(bleed[i], expected_bleed[i], 0.0101) << i;
  }
}

}  // namespace
}  // namespace quoin::outside
