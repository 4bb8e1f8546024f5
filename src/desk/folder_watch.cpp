#include "desk/folder_watch.h"

#include <fmt/format.h>
#include <poll.h>
#include <sys/eventfd.h>
#include <sys/inotify.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <chrono>
#include <filesystem>
#include <map>
#include <thread>

#include "base/hash.h"
#include "base/world.h"

namespace quoin::desk {
namespace fs = std::filesystem;
namespace {

using Clock = std::chrono::steady_clock;
constexpr std::chrono::milliseconds quiet{30}, at_the_latest{150}, between_looks{500};
constexpr std::uint32_t of_interest = IN_CLOSE_WRITE | IN_MODIFY | IN_CREATE | IN_DELETE |
                                      IN_MOVED_FROM | IN_MOVED_TO | IN_ATTRIB | IN_DELETE_SELF |
                                      IN_MOVE_SELF | IN_ONLYDIR;

bool is_text(std::string_view path) {
  return path.ends_with(".toml") || path.ends_with(".csv") || path.ends_with(".md");
}

}  // namespace

bool bears_on_the_game(std::string_view path) {
  for (const char* made : {"pack/", "reprint/", "share/"}) {
    if (path.starts_with(made)) return false;
  }
  return !path.starts_with('.') && path.find("/.") == std::string_view::npos;
}

FolderNames names_of(const std::string& folder) {
  std::string texts, pictures;
  for (const std::string& path : real_world(folder)->files_below("")) {
    if (!bears_on_the_game(path)) continue;
    struct stat facts {};
    if (::stat((folder + "/" + path).c_str(), &facts) != 0) continue;
    (is_text(path) ? texts : pictures) +=
        fmt::format("{}\n{} {} {} {} {:o} {}\n", path, facts.st_size, facts.st_ino,
                    facts.st_mtim.tv_sec, facts.st_mtim.tv_nsec, facts.st_mode, facts.st_uid);
  }
  return {sha256(texts), sha256(pictures)};
}

struct FolderWatch::State {
  std::string folder;
  std::function<void()> changed;
  int stop = ::eventfd(0, EFD_CLOEXEC);
  int watch = -1;
  std::map<int, std::string> watched;  // folders below, "" for the folder itself
  bool must_poll = false;
  FolderNames last_look;
  std::thread thread;

  ~State() {
    if (watch >= 0) ::close(watch);
    ::close(stop);
  }

  /// Watches the folder and all below it anew.
  void begin() {
    if (watch >= 0) ::close(watch);
    watched.clear();
    must_poll = false;
    watch = ::inotify_init1(IN_NONBLOCK | IN_CLOEXEC);
    add("");
    if (!watched.empty()) return look();
    must_poll = true;
    look();
  }

  void look() { last_look = must_poll ? names_of(folder) : FolderNames{}; }

  void add(const std::string& below) {
    const std::string full = below.empty() ? folder : folder + "/" + below;
    const int number = watch < 0 ? -1 : ::inotify_add_watch(watch, full.c_str(), of_interest);
    if (number < 0) {
      must_poll = true;
      return;
    }
    watched[number] = below;
    std::error_code fault;
    for (fs::directory_iterator it(full, fs::directory_options::skip_permission_denied, fault), end;
         !fault && it != end; it.increment(fault)) {
      std::error_code kind_fault;
      const std::string path = (below.empty() ? "" : below + "/") + it->path().filename().string();
      const bool is_folder = it->is_directory(kind_fault) && !it->is_symlink(kind_fault);
      if (is_folder && bears_on_the_game(path + "/")) add(path);
      // What a link leads to may lie outside of what is watched.
      if (it->is_symlink(kind_fault)) must_poll = true;
    }
  }

  /// Reads what has happened; true when it bears on the game.
  bool read_events() {
    alignas(inotify_event) std::array<char, 16'384> buffer;
    bool bears = false, must_begin = false;
    for (;;) {
      const ssize_t got = ::read(watch, buffer.data(), buffer.size());
      if (got <= 0) break;
      for (const char* at = buffer.data(); at < buffer.data() + got;) {
        const auto* event = reinterpret_cast<const inotify_event*>(at);
        at += sizeof(inotify_event) + event->len;
        const auto folder_of = watched.find(event->wd);
        if (folder_of == watched.end()) continue;
        const std::string path = (folder_of->second.empty() ? "" : folder_of->second + "/") +
                                 (event->len > 0 ? event->name : "");
        if ((event->mask & (IN_DELETE_SELF | IN_MOVE_SELF | IN_Q_OVERFLOW)) != 0) must_begin = true;
        if ((event->mask & IN_ISDIR) != 0 && (event->mask & (IN_CREATE | IN_MOVED_TO)) != 0 &&
            bears_on_the_game(path + "/")) {
          add(path);
        }
        bears = bears || path.empty() || bears_on_the_game(path);
      }
    }
    if (must_begin) begin();
    return bears || must_begin;
  }

  /// True once the wait is to end: `stop` was asked for.
  bool wait(int milliseconds) {
    pollfd on[2] = {{stop, POLLIN, 0}, {watch, POLLIN, 0}};
    (void)::poll(on, watch >= 0 ? 2 : 1, milliseconds);
    return on[0].revents != 0;
  }

  void settle(Clock::time_point first) {
    while (Clock::now() - first < at_the_latest) {
      if (wait(static_cast<int>(quiet.count()))) return;
      if (watch < 0 || !read_events()) return;
    }
  }

  void run() {
    for (;;) {
      if (wait(must_poll ? static_cast<int>(between_looks.count()) : -1)) return;
      bool bears = watch >= 0 && read_events();
      if (must_poll) {
        const FolderNames before = last_look;
        if (watched.empty()) begin();
        look();
        bears = bears || last_look != before;
      }
      if (!bears) continue;
      settle(Clock::now());
      changed();
    }
  }
};

FolderWatch::FolderWatch(std::string folder, std::function<void()> changed)
    : state_(std::make_unique<State>()) {
  state_->folder = std::move(folder);
  state_->changed = std::move(changed);
  state_->begin();
  state_->thread = std::thread([this] { state_->run(); });
}

FolderWatch::~FolderWatch() {
  const std::uint64_t one = 1;
  (void)!::write(state_->stop, &one, sizeof one);
  state_->thread.join();
}

}  // namespace quoin::desk
