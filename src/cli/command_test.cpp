#include "cli/command.h"

#include <gtest/gtest.h>

#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>

#include "base/diagnostic.h"

namespace quoin::cli {
namespace {
namespace fs = std::filesystem;

/// What a command line answers: its exit code and all it says.
struct Answer {
  int code = 0;
  std::string out, err;
};

std::string everything_in(std::FILE* file) {
  std::string text;
  std::rewind(file);
  for (int c = std::fgetc(file); c != EOF; c = std::fgetc(file)) text += static_cast<char>(c);
  std::fclose(file);
  return text;
}

Answer answer_to(const std::vector<std::string>& typed) {
  std::FILE* out = std::tmpfile();
  std::FILE* err = std::tmpfile();
  Answer answer;
  answer.code = run(typed, Voices{Terminal(out), Terminal(err)});
  answer.out = everything_in(out);
  answer.err = everything_in(err);
  return answer;
}

TEST(CommandLine, names_the_nearest_command) {
  const Answer answer = answer_to({"chek"});
  EXPECT_EQ(answer.code, exit_wrong_use);
  EXPECT_EQ(answer.err, "quoin: there is no command \"chek\"\nhint: did you mean check?\n");
}

TEST(CommandLine, names_the_nearest_option) {
  const Answer answer = answer_to({"make", "--ony", "a"});
  EXPECT_EQ(answer.code, exit_wrong_use);
  EXPECT_EQ(answer.err, "quoin: make does not know --ony\nhint: did you mean --only?\n");
}

TEST(CommandLine, asks_for_a_value_that_is_missing) {
  const Answer answer = answer_to({"make", "--out"});
  EXPECT_EQ(answer.code, exit_wrong_use);
  EXPECT_EQ(answer.err, "quoin: --out needs FOLDER after it\nhint: quoin help make\n");
}

TEST(CommandLine, refuses_a_number_of_decks_that_makes_no_sense) {
  const Answer answer = answer_to({"make", "--decks=0"});
  EXPECT_EQ(answer.code, exit_wrong_use);
  EXPECT_EQ(answer.err, "quoin: --decks takes a whole number from 1 to 1000, not \"0\"\n");
}

TEST(CommandLine, says_when_a_folder_holds_no_game) {
  const Answer answer = answer_to({"check", "/nonexistent"});
  EXPECT_EQ(answer.code, exit_wrong_use);
  EXPECT_EQ(answer.err,
            "quoin: there is no game.toml in /nonexistent\n"
            "hint: name the game's folder, or make a game with quoin new\n");
}

TEST(Help, explains_every_command_with_an_example) {
  for (const Command& command : commands()) {
    const Answer answer = answer_to({"help", std::string(command.name)});
    EXPECT_EQ(answer.code, exit_clean) << command.name;
    EXPECT_NE(answer.out.find(command.summary), std::string::npos) << command.name;
    EXPECT_NE(answer.out.find("  quoin " + std::string(command.name)), std::string::npos)
        << command.name;
    for (const Option& option : command.options) {
      EXPECT_NE(answer.out.find(option.name), std::string::npos) << option.name;
    }
  }
}

TEST(Help, explains_every_finding) {
  for (const IdFacts& finding : all_diagnostics()) {
    const Answer answer = answer_to({"help", std::string(finding.name)});
    EXPECT_EQ(answer.code, exit_clean) << finding.name;
    EXPECT_NE(answer.out.find(finding.remedy), std::string::npos) << finding.name;
  }
}

TEST(Sizes, lists_cards_and_paper) {
  const Answer answer = answer_to({"sizes"});
  EXPECT_EQ(answer.code, exit_clean);
  EXPECT_NE(answer.out.find("63.5 x 88.9"), std::string::npos);
  EXPECT_NE(answer.out.find("210 x 297"), std::string::npos);
}

TEST(CommandsPage, is_fresh) {
  const fs::path page = fs::path(QUOIN_SOURCE_DIR) / "docs" / "commands.md";
  if (std::getenv("QUOIN_ACCEPT")) std::ofstream(page, std::ios::binary) << commands_page();
  std::ifstream in(page, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  EXPECT_EQ(text.str(), commands_page()) << "run ./run accept";
}

}  // namespace
}  // namespace quoin::cli
