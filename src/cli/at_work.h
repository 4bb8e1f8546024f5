#pragma once
#include <string>
#include <vector>

#include "cli/command.h"
#include "job/job.h"

namespace quoin::cli {

/// What commands that work on a game have in common.

/// Shows how far the work is, on a terminal only, and stops it at Ctrl-C.
class Progress : public job::Watcher {
 public:
  explicit Progress(const Terminal& terminal);
  ~Progress() override { terminal_.clear_passing(); }
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;

  bool at(std::string_view work, int done, int of) override;

 private:
  const Terminal& terminal_;
  int shown_ = -1;
  std::string work_;
};

/// The parts of a list between commas, without spaces round them.
[[nodiscard]] std::vector<std::string> split(const std::string& list);

[[nodiscard]] int exit_code(const Diagnostics& found);

/// "14 bytes", "930 kB", "1.0 MB".
[[nodiscard]] std::string size_words(std::size_t bytes);

/// The game's folder that was typed, or the one we are in.
[[nodiscard]] std::string folder_of(const Asked& asked);

/// Whether there is a game; says so when there is none.
[[nodiscard]] bool is_game(const std::string& folder, const Voices& voices);

}  // namespace quoin::cli
