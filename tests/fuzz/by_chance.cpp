// Feeds the target that it is linked with the target's seeds, and inputs made from them by chance:
// bytes changed, parts left out, doubled, or taken from another seed. The same ones each time.
// QUOIN_SEEDS is the folder of the seeds; the input that broke something is kept as QUOIN_FOUND.
#include <gtest/gtest.h>
#include <sanitizer/common_interface_defs.h>
#include <unistd.h>

#include <algorithm>
#include <csignal>
#include <cstdint>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <random>
#include <string>
#include <vector>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size);

namespace {

using Input = std::string;

constexpr int inputs = 1'500;
constexpr unsigned longest_seconds = 10;  // for one input; one that takes longer counts as a hang
constexpr std::size_t longest_input = 65'536;

Input current;

std::string setting(const char* name) {
  const char* value = std::getenv(name);
  return value ? value : "";
}

void keep_current() { std::ofstream(setting("QUOIN_FOUND"), std::ios::binary) << current; }

[[noreturn]] void give_up_on_current(int) {
  keep_current();
  std::abort();
}

std::vector<Input> seeds() {
  std::vector<std::filesystem::path> files;
  for (const auto& entry : std::filesystem::directory_iterator(setting("QUOIN_SEEDS"))) {
    files.push_back(entry.path());
  }
  std::sort(files.begin(), files.end());
  std::vector<Input> all;
  for (const auto& file : files) {
    std::ifstream in(file, std::ios::binary);
    all.emplace_back(std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>());
  }
  return all;
}

class Chance {
 public:
  std::size_t below(std::size_t end) { return end == 0 ? 0 : numbers_() % end; }

  /// A part of the input that begins anywhere and is mostly short.
  Input part(const Input& from) {
    const std::size_t begin = below(from.size());
    return from.substr(begin, 1 + below(below(2) == 0 ? 8 : from.size() - begin + 1));
  }

  void change(Input& input, const Input& other) {
    static const std::vector<Input> telling = {"0",
                                               "-1",
                                               "1e999",
                                               "4294967296",
                                               "9223372036854775808",
                                               "nan",
                                               "\"",
                                               "'",
                                               "\n",
                                               "\r",
                                               ",",
                                               ";",
                                               "[",
                                               "]",
                                               "{",
                                               "}",
                                               "=",
                                               "#",
                                               "\\",
                                               "<",
                                               "&",
                                               "%",
                                               "\t",
                                               Input(1, '\0'),
                                               Input("\xff\xfe"),
                                               Input("\xef\xbb\xbf"),
                                               Input("\xed\xa0\x80"),
                                               Input(300, '(')};
    const std::size_t at = below(input.size() + 1);
    switch (below(6)) {
      case 0:
        if (at < input.size()) input[at] = static_cast<char>(numbers_());
        break;
      case 1:
        if (at < input.size()) input[at] = static_cast<char>(input[at] ^ (1 << below(8)));
        break;
      case 2:
        input.insert(at, telling[below(telling.size())]);
        break;
      case 3:
        input.insert(at, part(input));
        break;
      case 4:
        input.insert(at, part(other));
        break;
      default:
        input.erase(at, 1 + below(below(2) == 0 ? 4 : input.size() + 1));
    }
    if (input.size() > longest_input) input.resize(longest_input);
  }

 private:
  std::mt19937_64 numbers_{1};
};

void feed(const Input& input) {
  current = input;
  alarm(longest_seconds);
  LLVMFuzzerTestOneInput(reinterpret_cast<const std::uint8_t*>(input.data()), input.size());
  alarm(0);
}

TEST(FuzzTarget, is_not_broken_by_its_seeds_and_what_chance_makes_of_them) {
  const auto known = seeds();
  ASSERT_FALSE(known.empty()) << "no seeds in " << setting("QUOIN_SEEDS");
  __sanitizer_set_death_callback(keep_current);
  for (const int fatal : {SIGALRM, SIGABRT, SIGILL, SIGTRAP}) {
    std::signal(fatal, [](int number) {
      std::signal(number, SIG_DFL);
      give_up_on_current(number);
    });
  }
  feed("");
  for (const auto& seed : known) feed(seed);
  Chance chance;
  for (int made = 0; made < inputs; ++made) {
    Input input = known[chance.below(known.size())];
    for (std::size_t changes = 1 + chance.below(6); changes > 0; --changes) {
      chance.change(input, known[chance.below(known.size())]);
    }
    feed(input);
  }
}

}  // namespace
