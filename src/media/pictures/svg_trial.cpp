#include "media/pictures/svg_trial.h"

#include <fcntl.h>
#include <glib-object.h>
#include <librsvg/rsvg.h>
#include <poll.h>
#include <sys/prctl.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cerrno>
#include <chrono>
#include <csignal>
#include <cstdio>
#include <string>
#include <string_view>

#include "base/hash.h"
#include "media/pictures/svg_render.h"

namespace quoin::pictures {
namespace {

constexpr int trial_pixels = 800;
constexpr std::size_t more_memory = std::size_t{1} << 30;
constexpr auto longest_wait = std::chrono::seconds(20);
constexpr double stuck_below_seconds = 0.5;  // of the processor, after the longest wait
constexpr int tries = 5;

#if defined(__SANITIZE_ADDRESS__)
constexpr bool is_sanitized = true;
#elif defined(__has_feature)
#if __has_feature(address_sanitizer)
constexpr bool is_sanitized = true;
#else
constexpr bool is_sanitized = false;
#endif
#else
constexpr bool is_sanitized = false;
#endif
constexpr bool may_bound_memory = !is_sanitized;    // the sanitizer's own map takes terabytes
constexpr int cpu_seconds = is_sanitized ? 10 : 3;  // it takes two to three times as long

/// The memory mapped now, in bytes.
std::size_t mapped_memory() {
  std::size_t pages = 0;
  std::FILE* file = std::fopen("/proc/self/statm", "re");
  if (file == nullptr) return 0;
  if (std::fscanf(file, "%zu", &pages) != 1) pages = 0;
  std::fclose(file);
  return pages * static_cast<std::size_t>(sysconf(_SC_PAGESIZE));
}

void bound(__rlimit_resource resource, rlim_t soft, rlim_t hard) {
  const rlimit limit{soft, hard};
  setrlimit(resource, &limit);
}

/// Whatever the renderer prints when it breaks must not reach the maker.
void silence() {
  const int nowhere = open("/dev/null", O_RDWR | O_CLOEXEC);
  if (nowhere < 0) return;
  dup2(nowhere, STDOUT_FILENO);
  dup2(nowhere, STDERR_FILENO);
}

/// The child goes when its parent is killed: it has all that the parent had open, also the lock of
/// the game folder, and would keep the next desk out.
void leave_with(pid_t parent) {
  prctl(PR_SET_PDEATHSIG, SIGKILL);
  if (getppid() != parent) _exit(1);
}

/// In the child: never returns.
[[noreturn]] void draw_and_leave(const Bytes& svg, std::size_t memory, int report) {
  for (const int signal : {SIGXCPU, SIGSEGV, SIGABRT, SIGBUS, SIGFPE, SIGTERM, SIGALRM}) {
    std::signal(signal, SIG_DFL);
  }
  bound(RLIMIT_CORE, 0, 0);
  bound(RLIMIT_CPU, cpu_seconds, cpu_seconds + 1);
  if (may_bound_memory && memory > 0) bound(RLIMIT_AS, memory, memory);
  silence();
  const char verdict = draws(svg, trial_pixels) ? 'd' : 'g';
  const ssize_t written = write(report, &verdict, 1);
  _exit(written == 1 ? 0 : 1);
}

/// Whether the child waits for something: it has nothing to wait for but a lock that another thread
/// of the parent held when the child was made, which nobody will ever let go.
bool is_waiting(pid_t child) {
  const std::string path = "/proc/" + std::to_string(child) + "/stat";
  std::FILE* file = std::fopen(path.c_str(), "re");
  if (file == nullptr) return false;
  char text[256] = {};
  const std::size_t got = std::fread(text, 1, sizeof text - 1, file);
  std::fclose(file);
  const std::string_view words(text, got);
  const std::size_t name_ends = words.rfind(')');
  return name_ends != words.npos && words.substr(name_ends).starts_with(") S");
}

/// The byte that the child reports, 0 when it ended without one, '?' when it took too long or waits
/// for a lock.
char wait_for_report(int report, pid_t child) {
  constexpr auto look = std::chrono::milliseconds(100);
  constexpr int most_waiting_looks = 10;
  const auto end = std::chrono::steady_clock::now() + longest_wait;
  int waiting_looks = 0;
  while (std::chrono::steady_clock::now() < end) {
    pollfd wanted{report, POLLIN, 0};
    const int ready = poll(&wanted, 1, static_cast<int>(look.count()));
    if (ready < 0 && errno == EINTR) continue;
    if (ready == 0) {
      waiting_looks = is_waiting(child) ? waiting_looks + 1 : 0;
      if (waiting_looks >= most_waiting_looks) return '?';
      continue;
    }
    char verdict = 0;
    const ssize_t got = read(report, &verdict, 1);
    if (got < 0 && errno == EINTR) continue;
    return got == 1 ? verdict : '\0';
  }
  return '?';
}

/// What the child used of the processor, once it is gone.
double reap(pid_t child) {
  rusage used{};
  while (wait4(child, nullptr, 0, &used) < 0 && errno == EINTR) {
  }
  const auto seconds = [](const timeval& t) {
    return static_cast<double>(t.tv_sec) + static_cast<double>(t.tv_usec) / 1e6;
  };
  return seconds(used.ru_utime) + seconds(used.ru_stime);
}

enum class Try { draws, gives_up, takes_too_long, stuck };

Try try_once(const Bytes& svg) {
  int ends[2];
  if (pipe2(ends, O_CLOEXEC) != 0) return Try::stuck;
  const std::size_t memory = mapped_memory() + more_memory;
  const pid_t parent = getpid();
  const pid_t child = fork();
  if (child == 0) leave_with(parent);
  if (child == 0) draw_and_leave(svg, memory, ends[1]);
  close(ends[1]);
  const char verdict = child < 0 ? '?' : wait_for_report(ends[0], child);
  close(ends[0]);
  if (child < 0) return Try::stuck;
  if (verdict == '?') kill(child, SIGKILL);
  const double cpu = reap(child);
  if (verdict == 'd') return Try::draws;
  if (verdict == 'g') return Try::gives_up;
  return verdict == '?' && cpu < stuck_below_seconds ? Try::stuck : Try::takes_too_long;
}

std::string name_for(const Bytes& svg) { return "svg-trial-1-" + sha256(svg); }

std::optional<Trial> remembered(const std::string& name, const ImageCache* cache) {
  const std::optional<Bytes> kept = cache == nullptr ? std::nullopt : cache->get(name);
  if (kept == "draws") return Trial::draws;
  if (kept == "gives up") return Trial::gives_up;
  if (kept == "takes too long") return Trial::takes_too_long;
  return std::nullopt;
}

}  // namespace

Trial try_drawing(const Bytes& safe_svg, ImageCache* cache) {
  const std::string name = name_for(safe_svg);
  if (const std::optional<Trial> known = remembered(name, cache)) return *known;
  g_type_ensure(RSVG_TYPE_HANDLE);  // so that the child need not take the type system's locks
  Try outcome = Try::stuck;
  for (int i = 0; i < tries && outcome == Try::stuck; ++i) outcome = try_once(safe_svg);
  if (outcome == Try::stuck) return Trial::takes_too_long;  // not remembered: it may go well later
  const Trial trial = outcome == Try::draws      ? Trial::draws
                      : outcome == Try::gives_up ? Trial::gives_up
                                                 : Trial::takes_too_long;
  if (cache != nullptr) {
    cache->put(name, trial == Trial::draws      ? "draws"
                     : trial == Trial::gives_up ? "gives up"
                                                : "takes too long");
  }
  return trial;
}

}  // namespace quoin::pictures
