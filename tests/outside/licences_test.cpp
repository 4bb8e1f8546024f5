#include "game/licences.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>

#include "programs.h"

namespace quoin::outside {
namespace {

// The SPDX License List as the npm package spdx-license-list 6.12.0 has it (CC0-1.0), an
// identifier a line.
std::vector<std::string> spdx_identifiers() {
  const std::string list = std::string(QUOIN_NODE_PACKAGES) + "/spdx-license-list/spdx-simple.json";
  if (!std::filesystem::exists(list)) return {};
  const Answer answer =
      run({"node", "-p", "JSON.parse(require('fs').readFileSync('" + list + "')).join('\\n')"});
  return lines_of(answer.words);
}

TEST(Licences, that_are_called_spdx_are_on_the_spdx_list) {
  const std::vector<std::string> listed = spdx_identifiers();
  ASSERT_GT(listed.size(), 400U) << "spdx-license-list is not installed";
  int count = 0;
  for (const game::Licence& one : game::licences()) {
    if (!one.is_spdx) continue;
    ++count;
    EXPECT_NE(std::find(listed.begin(), listed.end(), one.id), listed.end()) << one.id;
  }
  EXPECT_GT(count, 60);
}

TEST(Licences, that_are_plain_words_are_not_on_it) {
  const std::vector<std::string> listed = spdx_identifiers();
  ASSERT_GT(listed.size(), 400U) << "spdx-license-list is not installed";
  for (const game::Licence& one : game::licences()) {
    if (one.is_spdx) continue;
    EXPECT_EQ(std::find(listed.begin(), listed.end(), one.id), listed.end()) << one.id;
  }
}

}  // namespace
}  // namespace quoin::outside
