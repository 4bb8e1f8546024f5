#include "trace/pixels/source.h"

#include <array>
#include <opencv2/imgproc.hpp>

#include "media/colour.h"
#include "media/colour_linear.h"
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
  // The same as `to_lab`, the light of each value looked up; neighbours are often alike.
  std::array<float, 256> light{};
  for (std::size_t i = 0; i < light.size(); ++i) {
    light[i] = static_cast<float>(linear_from_srgb(double(i) / 255));
  }
  const auto part = [](float t) {
    return t > 216.0F / 24389 ? std::cbrt(t) : (24389.0F / 27 * t + 16) / 116;
  };
  Grid<Three> lab(pixels.width(), pixels.height());
  Rgb last;
  Three last_lab;
  for (std::size_t i = 0; i < pixels.cells().size(); ++i) {
    const Rgb own = pixels.cells()[i];
    if (!(own == last)) {
      const float red = light[own.red], green = light[own.green], blue = light[own.blue];
      const float fx = part((0.4124564F * red + 0.3575761F * green + 0.1804375F * blue) / 0.95047F);
      const float fy = part(0.2126729F * red + 0.7151522F * green + 0.0721750F * blue);
      const float fz = part((0.0193339F * red + 0.1191920F * green + 0.9503041F * blue) / 1.08883F);
      last = own;
      last_lab = {116 * fy - 16, 500 * (fx - fy), 200 * (fy - fz)};
    }
    lab.cells()[i] = last_lab;
  }
  return lab;
}

Three lab_of(Three srgb) {
  const Lab lab = to_lab({srgb.x / 255.0, srgb.y / 255.0, srgb.z / 255.0, 1});
  return {float(lab.l), float(lab.a), float(lab.b)};
}

Three srgb_of(Three lab) {
  // CIE 15: L*a*b* to XYZ; the matrix is the inverse of the one in `to_lab`.
  const double fy = (double(lab.x) + 16) / 116;
  const double fx = fy + double(lab.y) / 500, fz = fy - double(lab.z) / 200;
  const auto part = [](double f) {
    const double cube = f * f * f;
    return cube > 216.0 / 24389 ? cube : (116 * f - 16) / (24389.0 / 27);
  };
  const double x = part(fx) * 0.95047, y = part(fy), z = part(fz) * 1.08883;
  const auto value = [](double light) {
    return static_cast<float>(srgb_from_linear(std::clamp(light, 0.0, 1.0)) * 255);
  };
  return {value(3.2404542 * x - 1.5371385 * y - 0.4985314 * z),
          value(-0.9692660 * x + 1.8760108 * y + 0.0415560 * z),
          value(0.0556434 * x - 0.2040259 * y + 1.0572252 * z)};
}

Grid<Rgb> enlarged(const Grid<Rgb>& pixels, int scale) {
  if (scale == 1) return pixels;
  Grid<Rgb> out(pixels.width() * scale, pixels.height() * scale);
  cv::Mat to = matrix(out);
  cv::resize(matrix(pixels), to, to.size(), 0, 0, cv::INTER_CUBIC);
  return out;
}

}  // namespace quoin::trace
