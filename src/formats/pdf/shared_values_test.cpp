#include "formats/pdf/shared_values.h"

#include <gtest/gtest.h>

namespace quoin::pdf {
namespace {

TEST(SharedValues, make_what_reads_alike_one_object) {
  SharedValues alike;
  Object first = alike.of(Object::parse("<< /ca 1 >>"));
  const Object second = alike.of(Object::parse("<< /ca  1 >>"));
  const Object other = alike.of(Object::parse("<< /ca 0.5 >>"));
  EXPECT_TRUE(first.isSameObjectAs(second));
  EXPECT_FALSE(first.isSameObjectAs(other));
}

TEST(SharedValues, leave_objects_of_their_own_alone) {
  QPDF file;
  file.emptyPDF();
  SharedValues alike;
  Object first = file.makeIndirectObject(Object::parse("[ 1 ]"));
  const Object second = file.makeIndirectObject(Object::parse("[ 1 ]"));
  EXPECT_TRUE(alike.of(first).isSameObjectAs(first));
  EXPECT_FALSE(alike.of(second).isSameObjectAs(first));
}

TEST(SharedValues, change_nothing_that_a_form_says) {
  QPDF file;
  file.emptyPDF();
  SharedValues alike;
  const char* says =
      "<< /BBox [ 0 0 9 9 ] /Resources << /ExtGState << /a0 << /ca 1 >> >> "
      "/XObject << >> >> /Subtype /Form >>";
  Object inner = file.newStream("q Q"), outer = file.newStream("q Q");
  for (Object* form : {&inner, &outer}) form->replaceDict(Object::parse(says));
  outer.getDict().getKey("/Resources").getKey("/XObject").replaceKey("/x1", inner);
  const std::string before = outer.getDict().unparse();
  alike.within_form(outer);
  EXPECT_EQ(outer.getDict().unparse(), before);
  EXPECT_TRUE(outer.getDict().getKey("/BBox").isSameObjectAs(inner.getDict().getKey("/BBox")));
  EXPECT_FALSE(outer.getDict()
                   .getKey("/Resources")
                   .getKey("/XObject")
                   .isSameObjectAs(inner.getDict().getKey("/Resources").getKey("/XObject")));
}

}  // namespace
}  // namespace quoin::pdf
