#pragma once
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "cli/terminal.h"

namespace quoin::cli {

/// Exit codes, the same for every command.
inline constexpr int exit_clean = 0;
inline constexpr int exit_wrong_use = 1;
inline constexpr int exit_not_written = 2;
inline constexpr int exit_with_warnings = 3;

struct Option {
  std::string_view name;   ///< "--out"
  std::string_view value;  ///< "FOLDER", or "" for a switch; "ID,ID" may be given several times
  std::string_view help;
};

/// What was typed after the command's name, sorted.
struct Asked {
  std::vector<std::string> words;
  std::map<std::string, std::string, std::less<>> options;
  [[nodiscard]] bool has(std::string_view name) const { return options.contains(name); }
  [[nodiscard]] std::optional<std::string> get(std::string_view name) const;
};

struct Voices {
  Terminal out;  ///< results
  Terminal err;  ///< problems, progress
};

/// One command: the row from which parsing, help and the reference page come.
struct Command {
  std::string_view name;
  std::string_view usage;    ///< "[DIR] [options]"
  std::string_view summary;  ///< one line
  std::string_view text;     ///< paragraphs
  std::string_view example;  ///< command lines with what they do
  int most_words = 0;
  std::vector<Option> options;
  int (*run)(const Asked& asked, const Voices& voices);
};

/// All commands, in the order of the help.
[[nodiscard]] const std::vector<Command>& commands();

/// docs/commands.md, made from the table.
[[nodiscard]] std::string commands_page();

/// Runs the program with what was typed (without its own name) and gives its exit code.
[[nodiscard]] int run(const std::vector<std::string>& typed, const Voices& voices);

int run_new(const Asked& asked, const Voices& voices);
int run_check(const Asked& asked, const Voices& voices);
int run_desk(const Asked& asked, const Voices& voices);
int run_make(const Asked& asked, const Voices& voices);
int run_share(const Asked& asked, const Voices& voices);
int run_printer(const Asked& asked, const Voices& voices);
int run_trace(const Asked& asked, const Voices& voices);
int run_pictures(const Asked& asked, const Voices& voices);
int run_straighten(const Asked& asked, const Voices& voices);
int run_cut_out(const Asked& asked, const Voices& voices);
int run_palette(const Asked& asked, const Voices& voices);
int run_recolour(const Asked& asked, const Voices& voices);
int run_sizes(const Asked& asked, const Voices& voices);
int run_help(const Asked& asked, const Voices& voices);
int run_version(const Asked& asked, const Voices& voices);

}  // namespace quoin::cli
