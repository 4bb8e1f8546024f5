#include "media/pictures/recognise.h"

#include <gtest/gtest.h>

#include "media/pictures/exif.h"
#include "media/pictures/samples.h"

namespace quoin::pictures {
namespace {

using namespace std::string_view_literals;

TEST(Recognise, knows_each_format_by_its_content) {
  EXPECT_EQ(recognise(samples::png({})), PictureFormat::png);
  EXPECT_EQ(recognise(samples::jpeg({})), PictureFormat::jpeg);
  EXPECT_EQ(recognise(samples::webp(samples::WebpKind::lossy, 3, 3)), PictureFormat::webp);
  EXPECT_EQ(recognise(samples::tiff({})), PictureFormat::tiff);
}

TEST(Recognise, knows_svg_behind_declarations_and_comments) {
  for (const std::string_view text :
       {"<svg/>"sv, "  \n<svg xmlns='x'>"sv,
        "\xef\xbb\xbf<?xml version='1.0'?><!-- <html> --><svg>"sv,
        "<!DOCTYPE svg PUBLIC '-//W3C//DTD SVG 1.1//EN' 'x'><svg>"sv, "<s:svg xmlns:s='x'/>"sv,
        "<!DOCTYPE svg [<!ENTITY a 'b'>]><svg/>"sv, "\xff\xfe<\0s\0v\0g\0/\0>\0"sv}) {
    EXPECT_EQ(recognise(text), PictureFormat::svg) << text;
  }
}

TEST(Recognise, does_not_take_other_markup_for_svg) {
  for (const std::string_view text :
       {"<!DOCTYPE html><html><svg/></html>"sv, "<html><body><svg></svg>"sv,
        "<?xml version='1.0'?><kml/>"sv, "svg"sv, ""sv, "<svgx/>"sv}) {
    EXPECT_EQ(recognise(text), std::nullopt) << text;
  }
}

TEST(LooksLike, names_what_people_save_by_mistake) {
  EXPECT_EQ(looks_like(""), "an empty file");
  EXPECT_EQ(looks_like("<!DOCTYPE html><html>"), "a web page (HTML)");
  EXPECT_EQ(looks_like("GIF89a.."), "a GIF picture");
  EXPECT_EQ(looks_like("%PDF-1.7"), "a PDF");
  EXPECT_EQ(looks_like("\x1f\x8b\x08"), "a gzip-compressed file, perhaps a compressed SVG (.svgz)");
  EXPECT_EQ(looks_like("\0\0\0\x1c"
                       "ftypheic"sv),
            "a HEIC picture");
  EXPECT_EQ(looks_like("\0\0\0\0\0\0"sv), "a file of zero bytes only");
  EXPECT_EQ(looks_like("hello"), "a text file");
  EXPECT_EQ(looks_like("<?xml version='1.0'?><kml/>"), "an XML file, but not SVG");
  EXPECT_EQ(looks_like("\x01\x02\x03"), "a file of a kind that Quoin does not know");
}

TEST(FormatOfEnding, reads_the_ending_in_any_letters) {
  EXPECT_EQ(format_of_ending("a/b.JPG"), PictureFormat::jpeg);
  EXPECT_EQ(format_of_ending("a.b/c"), std::nullopt);
  EXPECT_EQ(format_of_ending("a.txt"), std::nullopt);
}

TEST(ExifOrientation, is_1_for_anything_unsound) {
  const std::string good("II*\0\x08\0\0\0\x01\0\x12\x01\x03\0\x01\0\0\0\x08\0\0\0\0\0\0\0", 26);
  EXPECT_EQ(exif_orientation(good), 8);
  for (std::size_t size = 0; size < 22; ++size)
    EXPECT_EQ(exif_orientation(good.substr(0, size)), 1);
  std::string wrong = good;
  wrong[18] = 9;
  EXPECT_EQ(exif_orientation(wrong), 1);
  wrong = good;
  wrong[7] = '\x7f';  // the directory lies far beyond the end
  EXPECT_EQ(exif_orientation(wrong), 1);
}

}  // namespace
}  // namespace quoin::pictures
