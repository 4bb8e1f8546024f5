#include "cli/progress.h"

#include <fmt/format.h>
#include <signal.h>

#include <algorithm>
#include <atomic>

namespace quoin::cli {
namespace {

std::atomic<bool> interrupted{false};

extern "C" void on_interrupt(int) { interrupted.store(true); }

}  // namespace

Progress::Progress(const Terminal& terminal) : terminal_(terminal) {
  struct sigaction action {};
  action.sa_handler = on_interrupt;
  action.sa_flags = SA_RESETHAND;  // a second Ctrl-C ends the program at once
  ::sigaction(SIGINT, &action, nullptr);
  ::sigaction(SIGTERM, &action, nullptr);
}

Progress::~Progress() { terminal_.clear_passing(); }

bool Progress::at(std::string_view work, int done, int of) {
  const int percent = of > 0 ? done * 100 / of : 100;
  if (percent != shown_ || work != work_) {
    terminal_.passing(fmt::format("{} {}/{}", work, done, of));
    shown_ = percent;
    work_ = work;
  }
  return !interrupted.load();
}

std::vector<std::string> words_in_list(const std::string& list) {
  std::vector<std::string> parts;
  std::size_t start = 0;
  while (start <= list.size()) {
    const std::size_t comma = std::min(list.find(',', start), list.size());
    std::string part = list.substr(start, comma - start);
    while (part.starts_with(' ')) part.erase(0, 1);
    while (part.ends_with(' ')) part.pop_back();
    if (!part.empty()) parts.push_back(std::move(part));
    start = comma + 1;
  }
  return parts;
}

}  // namespace quoin::cli
