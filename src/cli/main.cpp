#include <csignal>
#include <cstdio>
#include <exception>

#include "cli/command.h"

int main(int count, char** words) {
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
