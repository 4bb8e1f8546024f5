#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

#include "formats/pdf/inspection.h"
#include "programs.h"
#include "sample_cards.h"
#include "tables.h"

namespace quoin::outside {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;
using testing::SizeIs;

/// A row of poppler's `pdfimages -list`.
struct ListedImage {
  std::string kind, space, coding, object;
  int width = 0;
  double ppi = 0;
};

std::vector<ListedImage> listed_images(const std::string& pdf) {
  const Answer answer = run({"pdfimages", "-list", pdf});
  EXPECT_EQ(answer.exit_code, 0) << answer.words;
  std::vector<ListedImage> images;
  for (const std::string& line : lines_of(answer.words)) {
    const std::vector<std::string> words = words_of(line);
    if (words.size() < 16 || words[0] == "page") continue;
    images.push_back({words[2], words[5], words[8], words[10] + " " + words[11],
                      std::stoi(words[3]), number(words[12])});
  }
  return images;
}

class PdfContents : public testing::Test {
 protected:
  PdfContents() {
    document_.title = "Sample — cards";
    document_.language = "en";
    document_.pages = {SampleCards::page({210_mm, 297_mm}, {0, 0, 0, 1, 1}),
                       SampleCards::page({210_mm, 297_mm}, {1, 0})};
    bytes_ = cards_.pdf({cards_.face(), cards_.face()}, document_);
    path_ = folder_.put("cards.pdf", bytes_);
  }

  SampleCards cards_;
  Document document_;
  Folder folder_;
  Bytes bytes_;
  std::string path_;
};

TEST_F(PdfContents, pass_an_independent_structure_check) {
  const Answer answer = run({"qpdf", "--check", path_});
  EXPECT_EQ(answer.exit_code, 0) << answer.words;
  EXPECT_THAT(answer.words, HasSubstr("No syntax or stream encoding errors found"));
  EXPECT_THAT(answer.words, HasSubstr("PDF Version: 1.7"));
}

TEST_F(PdfContents, give_our_own_inspection_nothing_to_find_fault_with) {
  EXPECT_THAT(pdf::inspect(bytes_).faults, IsEmpty());
}

TEST_F(PdfContents, embed_every_font_as_an_outline_font) {
  const Answer answer = run({"pdffonts", path_});
  int fonts = 0;
  for (const std::string& line : lines_of(answer.words)) {
    if (line.starts_with("name") || line.starts_with("---")) continue;
    ++fonts;
    // From the right: two words of object id, then unicode, subset and embedded.
    const std::vector<std::string> words = words_of(line);
    ASSERT_GE(words.size(), 6u) << line;
    EXPECT_EQ(words[words.size() - 5], "yes") << line;
    EXPECT_EQ(words[words.size() - 3], "yes") << line;
    EXPECT_EQ(line.find("Type 3"), std::string::npos) << line;
    EXPECT_NE(line.find("NotoSans"), std::string::npos) << line;
  }
  EXPECT_GT(fonts, 0);
}

TEST_F(PdfContents, hold_each_picture_once_however_often_it_is_shown) {
  std::set<std::string> objects;
  int shown = 0;
  for (const ListedImage& image : listed_images(path_)) {
    if (image.width != 240) continue;  // tide.jpg
    EXPECT_EQ(image.coding, "jpeg");
    EXPECT_EQ(image.space, "icc");
    objects.insert(image.object);
    ++shown;
  }
  EXPECT_GE(shown, 2);
  EXPECT_THAT(objects, SizeIs(1));
}

TEST_F(PdfContents, make_soft_shadows_at_600_pixels_an_inch) {
  int shadows = 0;
  for (const ListedImage& image : listed_images(path_)) {
    if (image.width == 240 || image.width == 128) continue;  // the maker's own pictures
    EXPECT_NEAR(image.ppi, 600, 6);
    shadows += image.kind == "smask" ? 1 : 0;
  }
  EXPECT_GT(shadows, 0);
}

TEST_F(PdfContents, keep_jpeg_files_byte_for_byte) {
  Document document;
  document.pages = {SampleCards::page({100_mm, 100_mm}, {0})};
  const Scene both{{cards_.picture("tide.jpg", {{5_mm, 5_mm}, {40_mm, 30_mm}}),
                    cards_.picture("inks.jpg", {{5_mm, 45_mm}, {40_mm, 30_mm}})}};
  const Folder folder;
  const std::string path = folder.put("pictures.pdf", cards_.pdf({both}, document));
  EXPECT_EQ(run({"pdfimages", "-all", path, folder.path("out")}).exit_code, 0);
  std::set<Bytes> found;
  for (const std::string& name : folder.files()) {
    if (name.ends_with(".jpg")) found.insert(folder.read(name));
  }
  const std::set<Bytes> expected{SampleCards::file("tide.jpg"), SampleCards::file("inks.jpg")};
  EXPECT_TRUE(found == expected) << "two JPEG streams, the same as the files";
}

TEST_F(PdfContents, give_back_their_words_to_two_readers) {
  const std::vector<std::vector<std::string>> readers{{"pdftotext", path_, "-"},
                                                      {"mutool", "draw", "-q", "-F", "txt", path_}};
  for (const std::vector<std::string>& reader : readers) {
    const std::string words = run(reader).words;
    EXPECT_THAT(words, HasSubstr("Five fish, a naïve offer")) << reader[0];
    EXPECT_THAT(words, HasSubstr("Ærøskøbing & Wrack")) << reader[0];
  }
}

TEST_F(PdfContents, say_who_they_are_in_both_places) {
  const std::string info = run({"pdfinfo", path_}).words;
  EXPECT_THAT(info, HasSubstr("Sample — cards"));
  EXPECT_EQ(info.find("CreationDate"), std::string::npos);
  EXPECT_THAT(run({"pdfinfo", "-meta", path_}).words, HasSubstr("<rdf:li xml:lang=\"x-default\">"
                                                                "Sample — cards</rdf:li>"));
}

}  // namespace
}  // namespace quoin::outside
