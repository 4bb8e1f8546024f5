#include "cli/at_work.h"

#include <fmt/format.h>
#include <signal.h>

#include <atomic>
#include <filesystem>

namespace quoin::cli {
namespace fs = std::filesystem;
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

bool Progress::at(std::string_view work, int done, int of) {
  const int percent = of > 0 ? done * 100 / of : 100;
  if (percent != shown_ || work != work_) {
    terminal_.passing(fmt::format("{} {}/{}", work, done, of));
    shown_ = percent;
    work_ = work;
  }
  return !interrupted.load();
}

std::vector<std::string> split(const std::string& list) {
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

int exit_code(const Diagnostics& found) {
  const Counts counts = count(found);
  if (counts.errors > 0) return exit_not_written;
  return counts.warnings > 0 ? exit_with_warnings : exit_clean;
}

std::string size_words(std::size_t bytes) {
  if (bytes < 1000) return fmt::format("{} bytes", bytes);
  if (bytes < 1'000'000) return fmt::format("{:.0f} kB", static_cast<double>(bytes) / 1000);
  return fmt::format("{:.1f} MB", static_cast<double>(bytes) / 1e6);
}

std::string folder_of(const Asked& asked) {
  return asked.words.empty() ? "." : asked.words.front();
}

bool is_game(const std::string& folder, const Voices& voices) {
  std::error_code ec;
  if (fs::exists(fs::path(folder) / "game.toml", ec)) return true;
  voices.err.line(fmt::format("quoin: there is no game.toml in {}", folder), 4);
  voices.err.line("hint: name the game's folder, or make a game with quoin new", 6);
  return false;
}

}  // namespace quoin::cli
