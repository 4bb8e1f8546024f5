#include "base/build_id.h"

#include <gtest/gtest.h>

namespace quoin {
namespace {

TEST(BuildId, names_this_build_by_its_sha1) {
  EXPECT_EQ(build_id().size(), 40u) << "SHA-1, as CMakeLists.txt asks of the linker";
  EXPECT_EQ(build_id().find_first_not_of("0123456789abcdef"), std::string::npos);
}

}  // namespace
}  // namespace quoin
