// Writes the games that are measured: `measured_game game|faces FOLDER COUNT`.
#include <charconv>
#include <cstdio>
#include <exception>
#include <string_view>

#include "folders.h"

namespace {

[[nodiscard]] int count_of(std::string_view text) {
  int count = 0;
  const auto end = text.data() + text.size();
  const auto answer = std::from_chars(text.data(), end, count);
  return answer.ec == std::errc{} && answer.ptr == end ? count : 0;
}

}  // namespace

int main(int argc, char** argv) {
  const std::string_view what = argc == 4 ? argv[1] : "";
  const int count = argc == 4 ? count_of(argv[3]) : 0;
  if ((what != "game" && what != "faces") || count < 1) {
    std::fputs("use: measured_game game|faces FOLDER COUNT\n", stderr);
    return 1;
  }
  try {
    const auto all = quoin::bench::faces(count);
    if (what == "game") quoin::bench::write_game(argv[2], all);
    if (what == "faces") quoin::bench::write_face_svgs(argv[2], all);
  } catch (const std::exception& failure) {
    std::fprintf(stderr, "measured_game: %s\n", failure.what());
    return 2;
  }
  return 0;
}
