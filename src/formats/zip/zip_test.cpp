#include "formats/zip/zip.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cstdlib>

namespace quoin {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;
using testing::Not;

const std::vector<ZipEntry> entries{{"reef/index.html", Bytes(2000, 'a')},
                                    {"reef/größe.pdf", "%PDF-1.7"}};

TEST(WriteZip, holds_the_files_in_their_order) {
  const Result<Bytes> zip = write_zip(entries);
  ASSERT_TRUE(zip.ok());
  EXPECT_THAT(*paths_in_zip(*zip), ElementsAre("reef/index.html", "reef/größe.pdf"));
  EXPECT_LT(zip->size(), 1000U);             // the page is deflated
  EXPECT_THAT(*zip, HasSubstr("%PDF-1.7"));  // what is packed already is stored
}

TEST(WriteZip, gives_the_same_bytes_at_any_hour_and_place) {
  const Bytes first = *write_zip(entries);
  ::setenv("TZ", "Pacific/Auckland", 1);
  EXPECT_EQ(*write_zip(entries), first);
  ::unsetenv("TZ");
}

// APPNOTE 4.3.7: local file header; 4.4.6: date and time; 4.4.11: extra fields.
TEST(WriteZip, dates_files_to_1980_and_adds_no_extra_field) {
  const Bytes zip = *write_zip(entries);
  const auto word = [&](std::size_t at) {
    return static_cast<unsigned char>(zip[at]) + 256 * static_cast<unsigned char>(zip[at + 1]);
  };
  EXPECT_EQ(zip.substr(0, 4), std::string("PK\3\4"));
  EXPECT_EQ(word(10), 0);   // midnight
  EXPECT_EQ(word(12), 33);  // 1 January 1980
  EXPECT_EQ(word(28), 0);   // bytes of extra fields
}

TEST(PathsInZip, are_none_in_something_else) {
  EXPECT_FALSE(paths_in_zip("a shopping list"));
  EXPECT_FALSE(paths_in_zip(""));
}

}  // namespace
}  // namespace quoin
