#include "deck.h"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <fstream>
#include <numbers>
#include <stdexcept>
#include <string_view>

#include "chance.h"
#include "pictures.h"

namespace quoin::bench {
namespace {

constexpr int icon_count = 40, jpeg_count = 12, rgb_count = 4, rgba_count = 4;
constexpr int picture_count = jpeg_count + rgb_count + rgba_count;

constexpr std::array<std::string_view, 32> words{
    "tide",  "rope",    "lantern", "shell",  "draw",  "keep",  "north",  "anchor",
    "glass", "harbour", "trade",   "turn",   "two",   "cards", "before", "after",
    "wind",  "ebb",     "every",   "player", "takes", "gives", "one",    "from",
    "sand",  "sail",    "under",   "stone",  "rest",  "until", "storm",  "passes"};

[[nodiscard]] std::string some_words(Chance& chance, int count) {
  std::string text;
  for (int i = 0; i < count; ++i) {
    if (i) text += ' ';
    text += words[static_cast<std::size_t>(chance.below(static_cast<int>(words.size())))];
  }
  text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

[[nodiscard]] std::string picture_name(int number) {
  return fmt::format("{:02}.{}", number, number < jpeg_count ? "jpg" : "png");
}

[[nodiscard]] std::string colour(Chance& chance) {
  return fmt::format("#{:06x}", chance.below(0x1000000));
}

/// A wavy closed outline about the middle of a 100-unit square.
[[nodiscard]] std::string petal(Chance& chance, int points, double radius) {
  std::string path;
  for (int i = 0; i < points; ++i) {
    const double angle = 2 * std::numbers::pi * i / points;
    const double far = radius * chance.between(0.7, 1.2), near = radius * chance.between(0.4, 0.7);
    const double half = std::numbers::pi / points;
    path +=
        fmt::format("{}{:.2f} {:.2f}Q{:.2f} {:.2f} {:.2f} {:.2f}", i ? "L" : "M",
                    50 + far * std::cos(angle), 50 + far * std::sin(angle),
                    50 + near * std::cos(angle + half / 2), 50 + near * std::sin(angle + half / 2),
                    50 + near * std::cos(angle + half), 50 + near * std::sin(angle + half));
  }
  return path + "Z";
}

[[nodiscard]] std::string gradient(Chance& chance, const std::string& id) {
  return fmt::format(
      "<linearGradient id=\"{}\" x1=\"0\" y1=\"0\" x2=\"{:.2f}\" y2=\"1\">"
      "<stop offset=\"0\" stop-color=\"{}\"/><stop offset=\"0.6\" stop-color=\"{}\"/>"
      "<stop offset=\"1\" stop-color=\"{}\"/></linearGradient>\n",
      id, chance.fraction(), colour(chance), colour(chance), colour(chance));
}

void write_text(const std::filesystem::path& file, const std::string& text) {
  std::ofstream out(file, std::ios::binary);
  out << text;
  out.close();
  if (!out) throw std::runtime_error("cannot write " + file.string());
}

}  // namespace

std::vector<Face> faces(int count) {
  std::vector<Face> all;
  all.reserve(static_cast<std::size_t>(count));
  for (int n = 0; n < count; ++n) {
    Chance chance(static_cast<std::uint64_t>(n) + 1000);
    all.push_back({fmt::format("F-{:05}", n + 1), fmt::format("icons/{:02}.svg", n % icon_count),
                   picture_name(n % picture_count),
                   fmt::format("{} {}", some_words(chance, 1), n + 1),
                   some_words(chance, 18 + n % 8) + ".", some_words(chance, 9) + "."});
  }
  return all;
}

std::string icon_svg(int number, const std::string& prefix) {
  Chance chance(static_cast<std::uint64_t>(number) + 1);
  const bool shaded = number % 3 != 0, half_clear = number % 5 == 0;
  const int layers = 2 + number % 4;
  std::string defs, body;
  for (int layer = 0; layer < layers; ++layer) {
    std::string fill = colour(chance);
    if (shaded) {
      const std::string id = fmt::format("{}{}", prefix, layer);
      defs += gradient(chance, id);
      fill = fmt::format("url(#{})", id);
    }
    body += fmt::format("<path fill=\"{}\" stroke=\"{}\" stroke-width=\"1\" d=\"{}\"/>\n", fill,
                        colour(chance), petal(chance, 7 + number % 5, 46 - 9 * layer));
  }
  if (half_clear) body = "<g opacity=\"0.5\">\n" + body + "</g>\n";
  return fmt::format(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"100\" height=\"100\" "
      "viewBox=\"0 0 100 100\">\n<defs>{}</defs>\n{}</svg>\n",
      defs, body);
}

void write_art(const std::filesystem::path& folder) {
  std::filesystem::create_directories(folder / "icons");
  for (int n = 0; n < icon_count; ++n) {
    write_text(folder / fmt::format("icons/{:02}.svg", n), icon_svg(n, "g"));
  }
  for (int n = 0; n < picture_count; ++n) {
    const auto seed = static_cast<std::uint64_t>(n) + 500;
    const std::filesystem::path file = folder / picture_name(n);
    if (n < jpeg_count) {
      write_jpeg(file, painted(seed, 700, 3, 12), 82);
    } else {
      write_png(file, painted(seed, 700, n < jpeg_count + rgb_count ? 3 : 4, 8));
    }
  }
}

}  // namespace quoin::bench
