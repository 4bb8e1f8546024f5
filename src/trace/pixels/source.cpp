#include "trace/pixels/source.h"

#include <array>
#include <opencv2/imgproc.hpp>

#include "media/colour.h"
#include "trace/pixels/matrix.h"

namespace quoin::trace {
namespace {

struct Rgba {
  int red = 0, green = 0, blue = 0, alpha = 255;  // premultiplied
};

Rgba parts(std::uint32_t pixel) {
  return {int(pixel >> 16 & 255), int(pixel >> 8 & 255), int(pixel & 255), int(pixel >> 24)};
}

/// Of a few strong colours the one that is farthest from all colours of the picture.
Rgb far_colour(const Raster& raster) {
  constexpr std::array<Rgb, 8> candidates{Rgb{255, 0, 255}, {0, 255, 0}, {0, 255, 255},
                                          {255, 255, 0},    {0, 0, 255}, {255, 0, 0},
                                          {255, 255, 255},  {0, 0, 0}};
  std::vector<char> seen(16 * 16 * 16, 0);
  for (const std::uint32_t pixel : raster.pixels) {
    const Rgba p = parts(pixel);
    if (p.alpha < 128) continue;
    const int red = p.red * 255 / p.alpha, green = p.green * 255 / p.alpha,
              blue = p.blue * 255 / p.alpha;
    seen[std::size_t(red / 16 * 256 + green / 16 * 16 + blue / 16)] = 1;
  }
  Rgb best = candidates[0];
  float farthest = -1;
  for (const Rgb& one : candidates) {
    float nearest = 1e9F;
    for (int i = 0; i < 16 * 16 * 16; ++i) {
      if (seen[std::size_t(i)] == 0) continue;
      const Three cell{float(i / 256) * 17, float(i / 16 % 16) * 17, float(i % 16) * 17};
      nearest = std::min(nearest, squared(cell - three(one)));
    }
    if (nearest > farthest) {
      farthest = nearest;
      best = one;
    }
  }
  return best;
}

}  // namespace

Raster half_size(const Raster& raster) {
  Raster out;
  out.width = std::max(1, raster.width / 2);
  out.height = std::max(1, raster.height / 2);
  out.pixels.resize(std::size_t(out.width) * std::size_t(out.height));
  const int dx = raster.width > 1 ? 1 : 0, dy = raster.height > 1 ? 1 : 0;
  for (int y = 0; y < out.height; ++y) {
    for (int x = 0; x < out.width; ++x) {
      std::array<std::uint32_t, 4> sum{};
      for (const auto& [u, v] : {std::pair{0, 0}, {dx, 0}, {0, dy}, {dx, dy}}) {
        const std::size_t at = std::size_t(2 * y + v) * std::size_t(raster.width) + 2 * x + u;
        for (std::size_t k = 0; k < 4; ++k) sum[k] += raster.pixels[at] >> (8 * k) & 255;
      }
      std::uint32_t mean = 0;
      for (std::size_t k = 0; k < 4; ++k) mean |= (sum[k] + 2) / 4 << (8 * k);
      out.pixels[std::size_t(y) * std::size_t(out.width) + x] = mean;
    }
  }
  return out;
}

Source source_of(const Raster& given, int most_pixels) {
  Source source;
  Raster smaller;
  const Raster* raster = &given;
  while (std::int64_t(raster->width) * raster->height > most_pixels) {
    smaller = half_size(*raster);
    raster = &smaller;
    source.halved = true;
  }
  const bool has_alpha = std::any_of(raster->pixels.begin(), raster->pixels.end(),
                                     [](std::uint32_t p) { return p >> 24 != 255; });
  source.pixels = Grid<Rgb>(raster->width, raster->height);
  if (has_alpha) {
    source.alpha = Grid<std::uint8_t>(raster->width, raster->height);
    source.ground = far_colour(*raster);
  }
  for (std::size_t i = 0; i < raster->pixels.size(); ++i) {
    const Rgba p = parts(raster->pixels[i]);
    const auto over = [&](int part, int ground) {
      return static_cast<std::uint8_t>(
          std::min(255, part + (ground * (255 - p.alpha) + 127) / 255));
    };
    source.pixels.cells()[i] = {over(p.red, source.ground.red), over(p.green, source.ground.green),
                                over(p.blue, source.ground.blue)};
    if (has_alpha) source.alpha.cells()[i] = static_cast<std::uint8_t>(p.alpha);
  }
  return source;
}

Grid<Three> lab_of(const Grid<Rgb>& pixels) {
  Grid<Three> lab(pixels.width(), pixels.height());
  cv::Mat unit;
  matrix(pixels).convertTo(unit, CV_32F, 1 / 255.0);
  cv::Mat to = matrix(lab);
  cv::cvtColor(unit, to, cv::COLOR_RGB2Lab);
  return lab;
}

Three lab_of(Three srgb) {
  const Lab lab = to_lab({srgb.x / 255.0, srgb.y / 255.0, srgb.z / 255.0, 1});
  return {float(lab.l), float(lab.a), float(lab.b)};
}

Three srgb_of(Three lab) {
  cv::Mat3f from(1, 1, cv::Vec3f(lab.x, lab.y, lab.z));
  cv::Mat3f to;
  cv::cvtColor(from, to, cv::COLOR_Lab2RGB);
  const cv::Vec3f c = to(0, 0) * 255.0F;
  return {c[0], c[1], c[2]};
}

Grid<Rgb> enlarged(const Grid<Rgb>& pixels, int scale) {
  if (scale == 1) return pixels;
  Grid<Rgb> out(pixels.width() * scale, pixels.height() * scale);
  cv::Mat to = matrix(out);
  cv::resize(matrix(pixels), to, to.size(), 0, 0, cv::INTER_CUBIC);
  return out;
}

}  // namespace quoin::trace
