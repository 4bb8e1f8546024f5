#include <fmt/format.h>
#include <signal.h>

#include <charconv>
#include <filesystem>

#include "cli/command.h"
#include "cli/outside.h"
#include "desk/desk.h"
#include "desk/page.h"

namespace quoin::cli {
namespace {

int refuse(const Voices& voices, const std::string& what, const std::string& hint) {
  voices.err.line(voices.err.toned(Tone::error, "quoin:") + " " + what, 4);
  if (!hint.empty()) {
    voices.err.line(voices.err.toned(Tone::good, "hint:") + " " + hint, 6);
  }
  return exit_wrong_use;
}

std::optional<int> port_of(const Asked& asked) {
  const std::string text = asked.get("--port").value_or("0");
  int port = 0;
  const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), port);
  const bool is_whole = fault == std::errc() && end == text.data() + text.size();
  return is_whole && port >= 0 && port <= 65535 ? std::optional(port) : std::nullopt;
}

/// Ctrl-C and a friendly kill, taken by whoever waits for them and by no thread of the desk.
class Farewell {
 public:
  Farewell() {
    ::sigemptyset(&signals_);
    ::sigaddset(&signals_, SIGINT);
    ::sigaddset(&signals_, SIGTERM);
    ::sigaddset(&signals_, SIGHUP);
    ::pthread_sigmask(SIG_BLOCK, &signals_, nullptr);
  }
  void wait() const {
    int which = 0;
    (void)::sigwait(&signals_, &which);
  }

 private:
  sigset_t signals_;
};

}  // namespace

int run_desk(const Asked& asked, const Voices& voices) {
  const std::optional<int> port = port_of(asked);
  if (!port) {
    return refuse(
        voices,
        fmt::format("--port needs a number from 0 to 65535, not \"{}\"", *asked.get("--port")),
        "leave it out, and a free port is found");
  }
  const Farewell farewell;
  desk::DeskWishes wishes;
  wishes.folder = asked.words.empty() ? "." : asked.words.front();
  wishes.cache_folder = cache_folder();
  wishes.printers_folder = printers_folder();
  wishes.port = *port;
  wishes.show_outside = show_outside;
  auto opened = desk::Desk::open(wishes);
  if (const auto* refusal = std::get_if<desk::Refusal>(&opened)) {
    return refuse(voices, refusal->message, refusal->hint);
  }
  const desk::Desk& desk = *std::get<std::unique_ptr<desk::Desk>>(opened);
  voices.out.line(fmt::format("The desk is at {}", voices.out.toned(Tone::strong, desk.address())));
  if (!desk::has_page()) {
    voices.err.line(voices.err.toned(Tone::warning, "warning:") +
                        " the page of the desk was not built into this program; `./run desk` "
                        "builds both",
                    4);
  }
  voices.out.line("Ctrl-C ends it. Whoever has the address can change the game.");
  std::fflush(stdout);
  if (!asked.has("--no-open")) (void)show_outside(desk.address());
  farewell.wait();
  return exit_clean;
}

}  // namespace quoin::cli
