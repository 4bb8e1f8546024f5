#include "cli/outside.h"

#include <fcntl.h>
#include <signal.h>
#include <spawn.h>
#include <unistd.h>

#include <cstdlib>

namespace quoin::cli {

std::string cache_folder() {
  if (const char* own = std::getenv("XDG_CACHE_HOME"); own && *own == '/') {
    return std::string(own) + "/quoin/images";
  }
  const char* home = std::getenv("HOME");
  return home && *home == '/' ? std::string(home) + "/.cache/quoin/images" : std::string{};
}

std::string printers_folder() {
  if (const char* own = std::getenv("XDG_CONFIG_HOME"); own && *own == '/') {
    return std::string(own) + "/quoin/printers";
  }
  const char* home = std::getenv("HOME");
  return home && *home == '/' ? std::string(home) + "/.config/quoin/printers" : std::string{};
}

bool show_outside(const std::string& what) {
  if (std::getenv("DISPLAY") == nullptr && std::getenv("WAYLAND_DISPLAY") == nullptr) return false;
  ::signal(SIGCHLD, SIG_IGN);  // nobody waits for the program that is begun here
  posix_spawn_file_actions_t quiet;
  ::posix_spawn_file_actions_init(&quiet);
  for (const int voice : {STDIN_FILENO, STDOUT_FILENO, STDERR_FILENO}) {
    ::posix_spawn_file_actions_addopen(&quiet, voice, "/dev/null", O_RDWR, 0);
  }
  posix_spawnattr_t manner;
  ::posix_spawnattr_init(&manner);
  sigset_t none;
  ::sigemptyset(&none);
  ::posix_spawnattr_setsigmask(&manner, &none);
  ::posix_spawnattr_setflags(&manner, POSIX_SPAWN_SETSIGMASK);
  std::string program = "xdg-open", argument = what;
  char* const arguments[] = {program.data(), argument.data(), nullptr};
  pid_t child = 0;
  const int fault = ::posix_spawnp(&child, program.c_str(), &quiet, &manner, arguments, environ);
  ::posix_spawn_file_actions_destroy(&quiet);
  ::posix_spawnattr_destroy(&manner);
  return fault == 0;
}

}  // namespace quoin::cli
