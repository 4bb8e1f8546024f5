#include "known_pictures.h"

#include <fmt/format.h>
#include <stdio.h>

#include <jpeglib.h>

#include <cmath>
#include <cstdlib>
#include <fstream>
#include <nlohmann/json.hpp>
#include <random>
#include <stdexcept>

#include "trace/fidelity.h"

namespace quoin::trials {
namespace {

struct Pick {
  const char *package, *icon;
  Half half;
};

// @iconify-json/streamline-emojis 1.2.4, CC BY 4.0 (outlines and fills); noto 1.2.9, Apache 2.0;
// fluent-emoji-flat 1.2.6, MIT; twemoji 1.2.5, CC BY 4.0 (plain fills).
constexpr Pick picks[] = {
    {"streamline-emojis", "octopus", Half::tuned},
    {"streamline-emojis", "sailboat", Half::tuned},
    {"streamline-emojis", "snail", Half::tuned},
    {"streamline-emojis", "umbrella", Half::tuned},
    {"noto", "lobster", Half::tuned},
    {"noto", "spiral-shell", Half::tuned},
    {"noto", "squid", Half::tuned},
    {"noto", "cactus", Half::tuned},
    {"fluent-emoji-flat", "crab", Half::tuned},
    {"fluent-emoji-flat", "castle", Half::tuned},
    {"fluent-emoji-flat", "dragon", Half::tuned},
    {"twemoji", "lobster", Half::tuned},
    {"twemoji", "owl", Half::tuned},
    {"twemoji", "hook", Half::tuned},
    {"streamline-emojis", "turtle", Half::held_out},
    {"streamline-emojis", "crown", Half::held_out},
    {"streamline-emojis", "water-wave", Half::held_out},
    {"streamline-emojis", "tropical-fish", Half::held_out},
    {"noto", "crab", Half::held_out},
    {"noto", "octopus", Half::held_out},
    {"noto", "castle", Half::held_out},
    {"noto", "shrimp", Half::held_out},
    {"fluent-emoji-flat", "squid", Half::held_out},
    {"fluent-emoji-flat", "rocket", Half::held_out},
    {"fluent-emoji-flat", "penguin", Half::held_out},
    {"twemoji", "dragon", Half::held_out},
    {"twemoji", "desert-island", Half::held_out},
    {"twemoji", "parrot", Half::held_out},
};

double number_in(const nlohmann::json& icon, const nlohmann::json& set, const char* key) {
  if (icon.contains(key)) return icon[key].get<double>();
  return set.contains(key) ? set[key].get<double>() : 16;
}

}  // namespace

std::vector<KnownPicture> icons(const std::string& node_modules, Half half) {
  std::vector<KnownPicture> all;
  std::string open_package;
  nlohmann::json set;
  for (const Pick& pick : picks) {
    if (pick.half != half) continue;
    if (open_package != pick.package) {
      const std::string path =
          fmt::format("{}/@iconify-json/{}/icons.json", node_modules, pick.package);
      std::ifstream file(path);
      if (!file) throw std::runtime_error("there is no " + path);
      set = nlohmann::json::parse(file);
      open_package = pick.package;
    }
    if (!set["icons"].contains(pick.icon)) {
      throw std::runtime_error(fmt::format("{} has no {}", pick.package, pick.icon));
    }
    const nlohmann::json& icon = set["icons"][pick.icon];
    const double width = number_in(icon, set, "width"), height = number_in(icon, set, "height");
    all.push_back({fmt::format("{}-{}", pick.package, pick.icon),
                   fmt::format("<svg xmlns=\"http://www.w3.org/2000/svg\" "
                               "xmlns:xlink=\"http://www.w3.org/1999/xlink\" width=\"{0}\" "
                               "height=\"{1}\" viewBox=\"0 0 {0} {1}\">{2}</svg>",
                               width, height, icon["body"].get<std::string>()),
                   width, height});
  }
  return all;
}

Raster rendered(const Bytes& svg, int width, int height) {
  const auto drawn = trace::drawn(svg, width, height);
  if (!drawn) throw std::runtime_error("an SVG cannot be drawn: " + svg.substr(0, 200));
  return laid_on(*drawn, 0xFFFFFF);
}

Raster rendered(const KnownPicture& picture, int longer_side, int times) {
  const double scale = longer_side / std::max(picture.width, picture.height);
  const int width = static_cast<int>(std::lround(picture.width * scale));
  const int height = static_cast<int>(std::lround(picture.height * scale));
  return rendered(picture.svg, width * times, height * times);
}

Raster laid_on(const Raster& drawn, std::uint32_t ground) {
  Raster out = drawn;
  for (std::uint32_t& pixel : out.pixels) {
    const std::uint32_t clear = 255 - (pixel >> 24);
    std::uint32_t result = 0xFF000000U;
    for (const int shift : {0, 8, 16}) {
      const std::uint32_t part =
          (pixel >> shift & 255) + ((ground >> shift & 255) * clear + 127) / 255;
      result |= std::min(255U, part) << shift;
    }
    pixel = result;
  }
  return out;
}

Raster reduced(const Raster& large, int times) {
  Raster out{large.width / times, large.height / times, {}};
  out.pixels.reserve(std::size_t(out.width) * std::size_t(out.height));
  const std::uint32_t count = static_cast<std::uint32_t>(times * times);
  for (int y = 0; y < out.height; ++y) {
    for (int x = 0; x < out.width; ++x) {
      std::uint32_t sum[4] = {};
      for (int v = 0; v < times; ++v) {
        for (int u = 0; u < times; ++u) {
          const std::uint32_t pixel =
              large.pixels[std::size_t(y * times + v) * std::size_t(large.width) +
                           std::size_t(x * times + u)];
          for (int k = 0; k < 4; ++k) sum[k] += pixel >> (8 * k) & 255;
        }
      }
      std::uint32_t pixel = 0;
      for (int k = 0; k < 4; ++k) pixel |= (sum[k] + count / 2) / count << (8 * k);
      out.pixels.push_back(pixel);
    }
  }
  return out;
}

Bytes jpeg_of(const Raster& raster, int quality) {
  jpeg_compress_struct jpeg;
  jpeg_error_mgr errors;
  jpeg.err = jpeg_std_error(&errors);
  jpeg_create_compress(&jpeg);
  unsigned char* data = nullptr;
  unsigned long size = 0;
  jpeg_mem_dest(&jpeg, &data, &size);
  jpeg.image_width = static_cast<JDIMENSION>(raster.width);
  jpeg.image_height = static_cast<JDIMENSION>(raster.height);
  jpeg.input_components = 3;
  jpeg.in_color_space = JCS_RGB;
  jpeg_set_defaults(&jpeg);
  jpeg_set_quality(&jpeg, quality, TRUE);
  jpeg_start_compress(&jpeg, TRUE);
  std::vector<JSAMPLE> row(std::size_t(raster.width) * 3);
  for (int y = 0; y < raster.height; ++y) {
    for (int x = 0; x < raster.width; ++x) {
      const std::uint32_t p = raster.pixels[std::size_t(y) * std::size_t(raster.width) + x];
      for (int k = 0; k < 3; ++k) {
        row[std::size_t(3 * x + k)] = static_cast<JSAMPLE>(p >> (16 - 8 * k) & 255);
      }
    }
    JSAMPROW rows[] = {row.data()};
    jpeg_write_scanlines(&jpeg, rows, 1);
  }
  jpeg_finish_compress(&jpeg);
  Bytes bytes(reinterpret_cast<const char*>(data), size);
  jpeg_destroy_compress(&jpeg);
  std::free(data);
  return bytes;
}

Raster through_jpeg(const Raster& raster, int quality) {
  const MemoryWorld world({{"p.jpg", jpeg_of(raster, quality)}});
  PictureShelf shelf(world);
  Diagnostics found;
  const auto picture = shelf.open("p.jpg", Origin{}, found);
  if (!picture) throw std::runtime_error("a JPEG that was just written cannot be read");
  return **shelf.pixels(*picture);
}

Raster photographed(const Raster& raster, unsigned seed) {
  constexpr int reach = 3;
  double weights[2 * reach + 1];
  double sum = 0;
  for (int k = -reach; k <= reach; ++k) sum += weights[k + reach] = std::exp(-k * k / (2 * 0.81));
  std::mt19937 chance(seed);
  std::normal_distribution<double> noise(0, 5);
  std::vector<double> across(raster.pixels.size() * 3), down(raster.pixels.size() * 3);
  const auto blur = [&](auto read, std::vector<double>& to, int dx, int dy) {
    for (int y = 0; y < raster.height; ++y) {
      for (int x = 0; x < raster.width; ++x) {
        for (int c = 0; c < 3; ++c) {
          double value = 0;
          for (int k = -reach; k <= reach; ++k) {
            const int u = std::clamp(x + k * dx, 0, raster.width - 1);
            const int v = std::clamp(y + k * dy, 0, raster.height - 1);
            value += weights[k + reach] / sum * read(u, v, c);
          }
          to[(std::size_t(y) * std::size_t(raster.width) + x) * 3 + c] = value;
        }
      }
    }
  };
  blur(
      [&](int x, int y, int c) {
        return double(
            raster.pixels[std::size_t(y) * std::size_t(raster.width) + x] >> (16 - 8 * c) & 255);
      },
      across, 1, 0);
  blur([&](int x, int y,
           int c) { return across[(std::size_t(y) * std::size_t(raster.width) + x) * 3 + c]; },
       down, 0, 1);
  Raster out = raster;
  for (std::size_t i = 0; i < out.pixels.size(); ++i) {
    std::uint32_t pixel = 0xFF000000U;
    for (int c = 0; c < 3; ++c) {
      const double value = std::clamp(down[i * 3 + std::size_t(c)] + noise(chance), 0.0, 255.0);
      pixel |= static_cast<std::uint32_t>(std::lround(value)) << (16 - 8 * c);
    }
    out.pixels[i] = pixel;
  }
  return through_jpeg(out, 80);
}

}  // namespace quoin::trials
