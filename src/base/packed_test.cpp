#include "base/packed.h"

#include <gtest/gtest.h>

namespace quoin {
namespace {

TEST(Packed, gives_back_what_was_written) {
  PackedWriter out;
  out.number(0xfedcba9876543210);
  out.string(std::string_view("a\0b", 3));
  out.number(7);
  const std::string bytes = out.take();
  PackedReader in(bytes);
  EXPECT_EQ(in.number(), 0xfedcba9876543210);
  EXPECT_EQ(in.string(), std::string_view("a\0b", 3));
  EXPECT_FALSE(in.ended_well()) << "there is more";
  EXPECT_EQ(in.small(0, 7), 7);
  EXPECT_TRUE(in.ended_well());
}

TEST(Packed, notices_each_way_of_being_cut_short) {
  PackedWriter out;
  out.number(3);
  out.string("tide");
  const std::string whole = out.take();
  for (std::size_t size = 0; size < whole.size(); ++size) {
    PackedReader in(std::string_view(whole).substr(0, size));
    (void)in.number();
    EXPECT_EQ(in.string(), "") << size;
    EXPECT_FALSE(in.ended_well()) << size;
  }
}

TEST(Packed, takes_no_number_outside_its_range) {
  PackedWriter out;
  out.number(~std::uint64_t{0});
  out.number(1);
  const std::string bytes = out.take();
  PackedReader in(bytes);
  EXPECT_EQ(in.small(0, 4), 0);
  EXPECT_EQ(in.number(), 0u) << "nothing is read after a fault";
  EXPECT_FALSE(in.is_sound());
}

}  // namespace
}  // namespace quoin
