#include "base/reference.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <set>
#include <sstream>

namespace quoin {
namespace {

namespace fs = std::filesystem;

const IdFacts soft{static_cast<Id>(0), "art.too-soft",    Severity::warning,
                   "It is too soft",   "Edges are soft.", "Sharpen it."};
const IdFacts lost{static_cast<Id>(0), "art.lost",         Severity::error,
                   "It is lost",       "There is a hole.", "Find it."};

TEST(CheckPage, says_how_bad_what_is_seen_what_to_do_and_how_to_silence) {
  EXPECT_EQ(check_page(soft),
            "<!-- Generated from src/base/diagnostics; change it there. -->\n"
            "# It is too soft\n\n`art.too-soft`\n\n"
            "**Warning:** the files are written, but are likely to disappoint.\n\n"
            "## On the table\n\nEdges are soft.\n\n"
            "## What to do\n\nSharpen it.\n\n"
            "## If it is meant to be so\n\n"
            "When you have looked and it is meant to be so, silence it for this game in "
            "game.toml:\n\n"
            "```toml\n[checks]\noff = [\"art.too-soft\"]\n```\n\n"
            "[All checks](../checks.md)\n");
}

TEST(CheckPage, offers_no_way_to_silence_an_error) {
  const std::string page = check_page(lost);
  EXPECT_EQ(page.find("off ="), std::string::npos);
  EXPECT_NE(page.find("An error cannot be silenced"), std::string::npos);
}

TEST(ChecksIndex, names_every_diagnostic_once) {
  const std::string index = checks_index();
  for (const IdFacts& row : all_diagnostics()) {
    const std::string link = "(checks/" + std::string(row.name) + ".md)";
    const std::size_t first = index.find(link);
    EXPECT_NE(first, std::string::npos) << row.name;
    EXPECT_EQ(index.find(link, first + 1), std::string::npos) << row.name;
  }
}

TEST(Diagnostics, have_names_of_a_stage_and_words_and_are_told_apart) {
  std::set<std::string_view> names;
  for (const IdFacts& row : all_diagnostics()) {
    EXPECT_TRUE(names.insert(row.name).second) << row.name;
    EXPECT_EQ(std::count(row.name.begin(), row.name.end(), '.'), 1) << row.name;
    EXPECT_EQ(row.name.find_first_not_of("abcdefghijklmnopqrstuvwxyz-."), std::string_view::npos)
        << row.name;
  }
}

TEST(Diagnostics, are_explained_in_whole_sentences) {
  for (const IdFacts& row : all_diagnostics()) {
    EXPECT_FALSE(row.title.ends_with('.')) << row.name;
    EXPECT_TRUE(row.on_the_table.ends_with('.')) << row.name;
    EXPECT_TRUE(row.remedy.ends_with('.')) << row.name;
  }
}

std::string text_of(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

/// Set to write the pages instead of comparing them: tools/accept-check-pages does.
bool accepts() { return std::getenv("QUOIN_ACCEPT") != nullptr; }

void expect_page(const fs::path& path, const std::string& generated) {
  if (accepts()) {
    fs::create_directories(path.parent_path());
    std::ofstream(path, std::ios::binary) << generated;
  }
  EXPECT_EQ(text_of(path), generated)
      << path.filename() << " is stale: run tools/accept-check-pages";
}

TEST(ReferencePages, are_as_the_table_of_diagnostics_says) {
  const fs::path docs = fs::path(QUOIN_SOURCE_DIR) / "docs";
  expect_page(docs / "checks.md", checks_index());
  std::set<std::string> expected;
  for (const IdFacts& row : all_diagnostics()) {
    expect_page(docs / "checks" / check_file(row), check_page(row));
    expected.insert(check_file(row));
  }
  for (const fs::directory_entry& entry : fs::directory_iterator(docs / "checks")) {
    const std::string name = entry.path().filename().string();
    if (expected.contains(name)) continue;
    if (accepts())
      fs::remove(entry.path());
    else
      ADD_FAILURE() << name << " explains nothing that Quoin says: run tools/accept-check-pages";
  }
}

}  // namespace
}  // namespace quoin
