#include "formats/pdf/drawn_forms.h"

#include <gtest/gtest.h>

#include "formats/pdf/recorded_pages.h"

namespace quoin::pdf {
namespace {

class DrawnFormsInAFile : public testing::Test {
 protected:
  DrawnFormsInAFile() { file_.emptyPDF(); }

  /// A form with these resources.
  Object recorded(const std::string& resources) {
    Object stream = file_.newStream("q Q");
    stream.getDict().replaceKey("/Subtype", name("Form"));
    stream.getDict().replaceKey("/Resources", Object::parse(resources));
    return stream;
  }

  Object nested_group() {
    Object inner = recorded("<< >>");
    inner.getDict().replaceKey("/Group", Object::parse("<< /S /Transparency /CS /DeviceRGB >>"));
    return inner;
  }

  static bool has_default(Object form) {
    Object spaces = form.getDict().getKey("/Resources").getKey("/ColorSpace");
    return spaces.isDictionary() && spaces.hasKey("/DefaultRGB");
  }

  MemoryWorld world_;
  PictureShelf shelf_{world_};
  QPDF file_;
  ColourSpaces spaces_{file_};
  Images images_{file_, spaces_, shelf_};
  DrawnForms forms_{file_, spaces_, images_};
  PageRecorder::Recording recording_;
};

TEST_F(DrawnFormsInAFile, are_no_group_while_everything_in_them_is_opaque) {
  const Form form =
      forms_.from(recorded("<< /ExtGState << /a0 << /CA 1 /ca 1 >> >> >>"), recording_);
  EXPECT_FALSE(form.transparent);
  EXPECT_FALSE(Object(form.object).getDict().hasKey("/Group"));
  EXPECT_TRUE(has_default(form.object));
}

TEST_F(DrawnFormsInAFile, are_an_srgb_group_when_something_lets_through) {
  for (const char* state : {"/ca 0.5", "/CA 0.99", "/BM /Multiply", "/BM [ /Screen ]"}) {
    Form form = forms_.from(recorded("<< /ExtGState << /a0 << " + std::string(state) + " >> >> >>"),
                            recording_);
    EXPECT_TRUE(form.transparent) << state;
    EXPECT_EQ(form.object.getDict().getKey("/Group").getKey("/CS").getObjGen(),
              spaces_.srgb().getObjGen());
  }
}

TEST_F(DrawnFormsInAFile, are_transparent_with_a_masked_image_deep_inside) {
  Object image = file_.newStream("pixels");
  image.getDict().replaceKey("/Subtype", name("Image"));
  image.getDict().replaceKey("/SMask", file_.newStream("mask"));
  Object inner = recorded("<< /XObject << >> >>");
  inner.getDict().getKey("/Resources").getKey("/XObject").replaceKey("/x1", image);
  Object outer = recorded("<< /XObject << >> >>");
  outer.getDict().getKey("/Resources").getKey("/XObject").replaceKey("/x2", inner);
  EXPECT_TRUE(forms_.from(outer, recording_).transparent);
  EXPECT_TRUE(forms_.from(outer, recording_).transparent) << "the second look says the same";
}

TEST_F(DrawnFormsInAFile, give_the_groups_in_them_srgb_to_blend_in) {
  Object inner = nested_group();
  Object outer = recorded("<< /XObject << >> >>");
  outer.getDict().getKey("/Resources").getKey("/XObject").replaceKey("/x1", inner);
  (void)forms_.from(outer, recording_);
  EXPECT_EQ(inner.getDict().getKey("/Group").getKey("/CS").getObjGen(), spaces_.srgb().getObjGen());
  EXPECT_TRUE(has_default(inner));
}

TEST_F(DrawnFormsInAFile, reach_the_group_of_a_soft_mask) {
  Object mask = nested_group();
  Object outer = recorded("<< /ExtGState << /s1 << /SMask << /S /Luminosity >> >> >> >>");
  Object state = outer.getDict().getKey("/Resources").getKey("/ExtGState").getKey("/s1");
  state.getKey("/SMask").replaceKey("/G", mask);
  EXPECT_TRUE(forms_.from(outer, recording_).transparent);
  EXPECT_TRUE(has_default(mask));
}

TEST_F(DrawnFormsInAFile, reach_patterns_and_shadings) {
  Object tile = recorded("<< /Shading << /sh1 << /ShadingType 2 /ColorSpace /DeviceRGB >> >> >>");
  Object outer = recorded(
      "<< /Pattern << /p1 << /PatternType 2 /Shading << /ColorSpace /DeviceRGB >> >> >> >>");
  Object patterns = outer.getDict().getKey("/Resources").getKey("/Pattern");
  patterns.replaceKey("/p2", tile);
  (void)forms_.from(outer, recording_);
  EXPECT_EQ(patterns.getKey("/p1").getKey("/Shading").getKey("/ColorSpace").getObjGen(),
            spaces_.srgb().getObjGen());
  EXPECT_TRUE(has_default(tile));
  Object shading = tile.getDict().getKey("/Resources").getKey("/Shading").getKey("/sh1");
  EXPECT_EQ(shading.getKey("/ColorSpace").getObjGen(), spaces_.srgb().getObjGen());
}

TEST_F(DrawnFormsInAFile, end_when_a_form_shows_itself) {
  Object snake = recorded("<< /XObject << >> >>");
  snake.getDict().getKey("/Resources").getKey("/XObject").replaceKey("/x1", snake);
  EXPECT_FALSE(forms_.from(snake, recording_).transparent);
}

TEST(RecordedPages, refuse_a_recording_that_is_damaged) {
  QPDF file;
  PageRecorder::Recording recording;
  recording.pages = 1;
  recording.pdf = "%PDF-1.5 and no more";
  EXPECT_ANY_THROW((void)recorded_pages(file, recording));
}

TEST(RecordedPages, are_none_where_nothing_was_drawn) {
  QPDF file;
  EXPECT_TRUE(recorded_pages(file, {}).empty());
}

}  // namespace
}  // namespace quoin::pdf
