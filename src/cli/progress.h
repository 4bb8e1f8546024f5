#pragma once
#include <string>
#include <vector>

#include "cli/terminal.h"
#include "job/job.h"

namespace quoin::cli {

/// Shows how far the work is, on a terminal only, and stops it at Ctrl-C.
class Progress : public job::Watcher {
 public:
  explicit Progress(const Terminal& terminal);
  ~Progress() override;
  Progress(const Progress&) = delete;
  Progress& operator=(const Progress&) = delete;

  bool at(std::string_view work, int done, int of) override;

 private:
  const Terminal& terminal_;
  int shown_ = -1;
  std::string work_;
};

/// The words of "a, b,c", without blanks round them and without empty ones.
[[nodiscard]] std::vector<std::string> words_in_list(const std::string& list);

}  // namespace quoin::cli
