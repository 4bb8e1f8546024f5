#include <malloc.h>

#include <csignal>
#include <cstdio>
#include <exception>

#include "cli/command.h"

/// Keeps freed memory for the next picture instead of giving it back to the system: fetching it
/// again page by page was a fifth of the time of a small deck. What is larger than a picture goes
/// back at once.
void keep_memory() {
  mallopt(M_MMAP_THRESHOLD, 4 << 20);
  mallopt(M_TRIM_THRESHOLD, 64 << 20);
  mallopt(M_TOP_PAD, 1 << 20);
}

int main(int count, char** words) {
  keep_memory();
  const std::vector<std::string> typed(words + 1, words + count);
  const quoin::cli::Voices voices{quoin::cli::Terminal(stdout), quoin::cli::Terminal(stderr)};
  // A limit on the size of files is then told like a full disk, where it would end the program.
  std::signal(SIGXFSZ, SIG_IGN);
  try {
    return quoin::cli::run(typed, voices);
  } catch (const std::exception& broken) {
    voices.err.line(std::string("quoin: a fault of Quoin's own: ") + broken.what());
    voices.err.line("Nothing was changed. Please report this with the game that shows it.");
    return quoin::cli::exit_not_written;
  }
}
