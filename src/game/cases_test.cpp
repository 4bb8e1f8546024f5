#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "game/game.h"

namespace quoin::game {
namespace {

namespace fs = std::filesystem;

std::string described(const Diagnostic& one) {
  std::string text = to_string(one.origin);
  if (one.origin.length > 0) text += fmt::format("+{}", one.origin.length);
  text += fmt::format(": {}: {} [{}]\n", to_string(one.severity), one.message, facts(one.id).name);
  for (const std::string& detail : one.details) text += "    " + detail + "\n";
  for (const std::string& hint : one.hints) text += "    hint: " + hint + "\n";
  return text;
}

std::string layout_name(const Game& game, int at) {
  return at < 0 ? "-" : game.layouts[static_cast<std::size_t>(at)].file.str();
}

void describe(const std::vector<Element>& elements, const std::string& indent, std::string& text) {
  for (const Element& element : elements) {
    text += fmt::format("{}{} {}:", indent, element.kind, element.id);
    for (const Entry& entry : element.properties) {
      text += fmt::format(" {}@{}", entry.key, to_string(entry.value.origin));
    }
    text += fmt::format(" when {} unless {}\n", element.when.size(), element.unless.size());
    describe(element.children, indent + "  ", text);
  }
}

/// What was found, and what was read nevertheless.
std::string described(const Checked<Game>& read) {
  std::string text;
  for (const Diagnostic& one : read.found) text += described(one);
  text += "--\n";
  const Game& game = read.value;
  for (const Card& card : game.cards) {
    text += fmt::format("card {} x{} suit {} deck {} front {} back {}\n", card.id, card.copies,
                        card.suit.empty() ? "-" : card.suit, card.deck,
                        layout_name(game, card.layout), layout_name(game, card.back));
  }
  for (const Layout& layout : game.layouts) {
    text += fmt::format("layout {}\n", layout.file.str());
    describe(layout.elements, "  ", text);
  }
  for (const std::string& font : game.font_files) text += "font " + font + "\n";
  return text;
}

std::string text_of(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

/// The folders of tests/cases/game, each a game and the expected.txt of what is found in it.
std::vector<std::string> cases() {
  std::vector<std::string> names;
  for (const auto& entry : fs::directory_iterator(QUOIN_SOURCE_DIR "/tests/cases/game")) {
    if (entry.is_directory()) names.push_back(entry.path().filename().string());
  }
  std::sort(names.begin(), names.end());
  return names;
}

class GameCase : public testing::TestWithParam<std::string> {};

TEST_P(GameCase, gives_the_expected_findings) {
  const fs::path folder = fs::path(QUOIN_SOURCE_DIR "/tests/cases/game") / GetParam();
  const std::string got = described(read_game(*real_world(folder.string())));
  const fs::path expected = folder / "expected.txt";
  if (std::getenv("QUOIN_ACCEPT") != nullptr) std::ofstream(expected, std::ios::binary) << got;
  EXPECT_EQ(text_of(expected), got) << "run with QUOIN_ACCEPT=1 to accept, then look at the change";
}

std::string test_name(const testing::TestParamInfo<std::string>& info) {
  std::string name = info.param;
  std::replace(name.begin(), name.end(), '-', '_');
  return name;
}

INSTANTIATE_TEST_SUITE_P(Cases, GameCase, testing::ValuesIn(cases()), test_name);

}  // namespace
}  // namespace quoin::game
