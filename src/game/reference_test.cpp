#include "game/reference.h"

#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>
#include <sstream>

#include "game/schema.h"

namespace quoin::game {
namespace {

std::string text_of(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

void expect_file(const std::string& name, const std::string& generated) {
  const std::string path = std::string(QUOIN_SOURCE_DIR) + "/" + name;
  if (std::getenv("QUOIN_ACCEPT") != nullptr) std::ofstream(path, std::ios::binary) << generated;
  EXPECT_EQ(text_of(path), generated)
      << name << " is stale; run the game tests with QUOIN_ACCEPT=1 to write it anew";
}

TEST(GameFilesPage, is_as_committed) { expect_file("docs/game-files.md", game_files_page()); }

TEST(GameFilesPage, names_every_key_with_meaning_and_example) {
  const std::string page = game_files_page();
  for (const auto* sections : {&game_sections(), &layout_sections(), &printer_sections()}) {
    for (const SectionFacts& section : *sections) {
      EXPECT_NE(page.find("### " + std::string(section.title) + "\n"), std::string::npos)
          << section.name;
      for (const PropertyFacts& facts : keys_of(section.name)) {
        EXPECT_NE(page.find("**`" + std::string(facts.key) + "`**"), std::string::npos)
            << section.name << "." << facts.key;
        EXPECT_FALSE(facts.meaning.empty()) << section.name << "." << facts.key;
        EXPECT_FALSE(facts.example.empty()) << section.name << "." << facts.key;
      }
    }
  }
}

TEST(JsonSchema, of_game_files_is_as_committed) {
  expect_file("docs/schemas/game.schema.json", game_json_schema());
  expect_file("docs/schemas/layout.schema.json", layout_json_schema());
  expect_file("docs/schemas/printer.schema.json", printer_json_schema());
  expect_file("docs/schemas/prices.schema.json", prices_json_schema());
}

}  // namespace
}  // namespace quoin::game
