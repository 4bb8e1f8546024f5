#include "formats/pdf/images.h"

#include <gtest/gtest.h>

#include "formats/pdf/srgb_profile.h"

namespace quoin::pdf {
namespace {

Bytes placeholder(const std::string& key) {
  Bytes jpeg("\xff\xd8\xff\xfe\0", 5);
  jpeg += static_cast<char>(key.size() + 2);
  return jpeg + key + "\xff\xd9";
}

class ImagesInAFile : public testing::Test {
 protected:
  ImagesInAFile() { file_.emptyPDF(); }

  Object recorded(const std::string& key) {
    Object stream = file_.newStream();
    stream.replaceStreamData(placeholder(key), name("DCTDecode"), Object::newNull());
    stream.getDict().replaceKey("/Length", Object::newInteger(12));
    return stream;
  }

  /// The image that takes the place of a placeholder for `image`.
  Object embedded(PreparedImage image) {
    recording_.made["made"] = std::make_shared<const PreparedImage>(std::move(image));
    return images_.instead_of(recorded("made"), recording_).value();
  }

  static PreparedImage grey_square() {
    PreparedImage image;
    image.width = image.height = 2;
    image.model = ColourModel::grey;
    image.data = Bytes("deflated");
    return image;
  }

  MemoryWorld world_;
  PictureShelf shelf_{world_};
  QPDF file_;
  ColourSpaces spaces_{file_};
  Images images_{file_, spaces_, shelf_};
  PageRecorder::Recording recording_;
};

TEST(FirstComment, is_read_only_when_it_is_whole) {
  EXPECT_EQ(first_comment(placeholder("asset:12")), "asset:12");
  EXPECT_EQ(first_comment(placeholder("asset:12").substr(0, 9)), std::nullopt);
  EXPECT_EQ(first_comment("\xff\xd8\xff\xe0 a picture"), std::nullopt);
  EXPECT_EQ(first_comment(""), std::nullopt);
}

TEST_F(ImagesInAFile, are_embedded_once_however_often_they_are_shown) {
  const Object first = embedded(grey_square());
  const Object second = images_.instead_of(recorded("made"), recording_).value();
  EXPECT_EQ(first.getObjGen(), second.getObjGen());
}

TEST_F(ImagesInAFile, leave_pictures_alone_that_are_no_placeholders) {
  EXPECT_EQ(images_.instead_of(recorded("made by \xff\xda"), recording_), std::nullopt);
}

TEST_F(ImagesInAFile, never_leave_a_placeholder_behind) {
  EXPECT_THROW((void)images_.instead_of(recorded("asset:lost"), recording_), std::logic_error);
}

TEST_F(ImagesInAFile, are_grey_without_a_space_of_their_own) {
  Object facts = embedded(grey_square()).getDict();
  EXPECT_EQ(facts.getKey("/ColorSpace").unparse(), "/DeviceGray");
  EXPECT_EQ(facts.getKey("/Filter").unparse(), "/FlateDecode");
  EXPECT_FALSE(facts.hasKey("/DecodeParms"));
}

TEST_F(ImagesInAFile, say_how_their_rows_were_predicted) {
  PreparedImage image = grey_square();
  image.png_predictor_colours = 1;
  Object parameters = embedded(image).getDict().getKey("/DecodeParms");
  EXPECT_EQ(parameters.unparse(), "<< /BitsPerComponent 8 /Colors 1 /Columns 2 /Predictor 15 >>");
}

TEST_F(ImagesInAFile, turn_an_inverted_cmyk_jpeg_round_and_keep_its_bytes) {
  PreparedImage image = grey_square();
  image.model = ColourModel::cmyk;
  image.filter = PreparedImage::Filter::dct;
  image.inverted = true;
  image.data = Bytes("jpeg bytes");
  Object stream = embedded(image);
  EXPECT_EQ(stream.getDict().getKey("/Decode").unparse(), "[ 1 0 1 0 1 0 1 0 ]");
  EXPECT_EQ(stream.getDict().getKey("/ColorSpace").unparse(), "/DeviceCMYK");
  const auto raw = stream.getRawStreamData();
  EXPECT_EQ(std::string(reinterpret_cast<const char*>(raw->getBuffer()), raw->getSize()),
            "jpeg bytes");
}

TEST_F(ImagesInAFile, use_their_own_profile_when_it_suits_them) {
  PreparedImage image = grey_square();
  image.model = ColourModel::rgb;
  image.profile = srgb_profile();
  image.profile[64] = '\1';  // another intent: another profile than the house's
  Object space = embedded(image).getDict().getKey("/ColorSpace");
  EXPECT_NE(space.getObjGen(), spaces_.srgb().getObjGen());
  EXPECT_EQ(space.getArrayItem(1).getDict().getKey("/N").getIntValue(), 3);
}

TEST_F(ImagesInAFile, fall_back_to_srgb_when_the_profile_is_for_other_inks) {
  PreparedImage image = grey_square();
  image.model = ColourModel::rgb;
  image.profile = "not a profile";
  EXPECT_EQ(embedded(image).getDict().getKey("/ColorSpace").getObjGen(),
            spaces_.srgb().getObjGen());
}

TEST_F(ImagesInAFile, index_a_palette_over_srgb) {
  PreparedImage image = grey_square();
  image.model = ColourModel::rgb;
  image.bits = 1;
  image.palette = {0, 0, 0, 255, 128, 0};
  Object space = embedded(image).getDict().getKey("/ColorSpace");
  EXPECT_EQ(space.getArrayItem(0).getName(), "/Indexed");
  EXPECT_EQ(space.getArrayItem(1).getObjGen(), spaces_.srgb().getObjGen());
  EXPECT_EQ(space.getArrayItem(2).getIntValue(), 1);
  EXPECT_EQ(space.getArrayItem(3).getStringValue(), std::string("\0\0\0\xff\x80\0", 6));
}

TEST_F(ImagesInAFile, carry_their_soft_mask) {
  PreparedImage image = grey_square();
  image.soft_mask = std::make_shared<const PreparedImage>(grey_square());
  Object mask = embedded(image).getDict().getKey("/SMask");
  ASSERT_TRUE(mask.isStream());
  EXPECT_EQ(mask.getDict().getKey("/ColorSpace").unparse(), "/DeviceGray");
}

}  // namespace
}  // namespace quoin::pdf
