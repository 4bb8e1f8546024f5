#include "programs.h"

#include <sys/wait.h>

#include <algorithm>
#include <array>
#include <cstdio>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <memory>
#include <sstream>
#include <stdexcept>

namespace quoin::outside {
namespace {

std::string quoted(const std::string& word) {
  std::string result = "'";
  for (const char c : word) result += c == '\'' ? std::string("'\\''") : std::string(1, c);
  return result + "'";
}

/// Largest less smallest value of a channel in the pixels round (x, y), itself included.
int range_round(const Pixels& pixels, int x, int y, int channel) {
  int least = 255, most = 0;
  for (int v = std::max(y - 1, 0); v <= std::min(y + 1, pixels.height - 1); ++v) {
    for (int u = std::max(x - 1, 0); u <= std::min(x + 1, pixels.width - 1); ++u) {
      const int value = pixels.rgb[3 * (static_cast<std::size_t>(v) * pixels.width + u) + channel];
      least = std::min(least, value);
      most = std::max(most, value);
    }
  }
  return most - least;
}

}  // namespace

Answer run(const std::vector<std::string>& command) {
  constexpr int not_found = 127;
  std::string line;
  for (const std::string& word : command) line += quoted(word) + " ";
  FILE* pipe = popen((line + "2>&1").c_str(), "r");
  if (pipe == nullptr) throw std::runtime_error("cannot start " + command.at(0));
  Answer answer;
  std::array<char, 4096> block;
  for (std::size_t got; (got = fread(block.data(), 1, block.size(), pipe)) > 0;) {
    answer.words.append(block.data(), got);
  }
  answer.exit_code = WEXITSTATUS(pclose(pipe));
  if (answer.exit_code == not_found) {
    throw std::runtime_error("this check needs the program " + command.at(0));
  }
  return answer;
}

std::vector<std::string> lines_of(const std::string& text) {
  std::istringstream stream(text);
  std::vector<std::string> lines;
  for (std::string line; std::getline(stream, line);) {
    if (!line.empty() && line != "\f") lines.push_back(line);
  }
  return lines;
}

std::vector<std::string> words_of(const std::string& line) {
  std::istringstream stream(line);
  std::vector<std::string> words;
  for (std::string word; stream >> word;) words.push_back(word);
  return words;
}

Folder::Folder() : path_(std::filesystem::temp_directory_path() / "quoin-outside-XXXXXX") {
  if (mkdtemp(path_.data()) == nullptr) throw std::runtime_error("no folder for this test");
}

Folder::~Folder() {
  std::error_code ignored;
  std::filesystem::remove_all(path_, ignored);
}

std::string Folder::put(const std::string& name, const Bytes& bytes) const {
  std::ofstream(path(name), std::ios::binary) << bytes;
  return path(name);
}

Bytes Folder::read(const std::string& name) const {
  std::ifstream file(path(name), std::ios::binary);
  if (!file) throw std::runtime_error("no file " + name);
  return Bytes(std::istreambuf_iterator<char>(file), {});
}

std::vector<std::string> Folder::files() const {
  std::vector<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator(path_)) {
    names.push_back(entry.path().filename());
  }
  std::sort(names.begin(), names.end());
  return names;
}

Pixels read_ppm(const Bytes& ppm) {
  // Comments are allowed between the numbers of the head; one program writes one.
  std::istringstream stream(ppm);
  std::string word;
  std::array<int, 3> numbers{};
  if (!(stream >> word) || word != "P6") throw std::runtime_error("not a PPM file");
  for (int& number : numbers) {
    while (stream >> word && word[0] == '#') std::getline(stream, word);
    number = std::stoi(word);
  }
  stream.get();
  Pixels pixels{numbers[0], numbers[1], {}};
  pixels.rgb.assign(std::istreambuf_iterator<char>(stream), {});
  if (numbers[2] != 255 ||
      pixels.rgb.size() != 3 * static_cast<std::size_t>(pixels.width) * pixels.height) {
    throw std::runtime_error("a PPM file of another kind");
  }
  return pixels;
}

Difference difference(const Pixels& a, const Pixels& b) {
  constexpr int flat = 12;  // less than this among neighbours is no edge
  if (a.width != b.width || a.height != b.height) {
    throw std::runtime_error("pictures of different sizes");
  }
  Difference result;
  std::size_t flat_samples = 0;
  for (int y = 0; y < a.height; ++y) {
    for (int x = 0; x < a.width; ++x) {
      for (int channel = 0; channel < 3; ++channel) {
        const std::size_t at = 3 * (static_cast<std::size_t>(y) * a.width + x) + channel;
        const int apart = std::abs(a.rgb[at] - b.rgb[at]);
        result.mean += apart;
        if (range_round(a, x, y, channel) >= flat || range_round(b, x, y, channel) >= flat) {
          continue;
        }
        ++flat_samples;
        result.largest_on_flat = std::max(result.largest_on_flat, apart);
      }
    }
  }
  const auto samples = static_cast<double>(a.rgb.size());
  result.mean /= samples;
  result.flat_share = static_cast<double>(flat_samples) / samples;
  return result;
}

}  // namespace quoin::outside
