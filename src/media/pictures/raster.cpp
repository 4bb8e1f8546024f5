#include "media/pictures/raster.h"

#include <array>

#include "media/pictures/exif.h"
#include "media/pictures/icc.h"

namespace quoin::pictures {
namespace {

/// Where the stored pixel (x, y) lies in the upright raster: start + x * right + y * down.
struct Walk {
  std::ptrdiff_t start, right, down;
};

Walk upright_walk(int orientation, std::ptrdiff_t w, std::ptrdiff_t h) {
  switch (orientation) {
    case 2:
      return {w - 1, -1, w};  // mirrored left to right
    case 3:
      return {w * h - 1, -1, -w};  // upside down
    case 4:
      return {w * (h - 1), 1, -w};  // mirrored top to bottom
    case 5:
      return {0, h, 1};  // mirrored about the falling diagonal
    case 6:
      return {h - 1, h, -1};  // needs a quarter turn clockwise
    case 7:
      return {w * h - 1, -h, -1};  // mirrored about the rising diagonal
    case 8:
      return {h * (w - 1), -h, 1};  // needs a quarter turn back
    default:
      return {0, 1, w};
  }
}

std::uint32_t premultiplied(const std::uint8_t* rgb, std::uint32_t alpha) {
  const auto times_alpha = [alpha](std::uint32_t v) { return (v * alpha + 127) / 255; };
  return alpha << 24 | times_alpha(rgb[0]) << 16 | times_alpha(rgb[1]) << 8 | times_alpha(rgb[2]);
}

std::uint32_t opaque(const std::uint8_t* rgb) {
  return 0xff000000U | std::uint32_t{rgb[0]} << 16 | std::uint32_t{rgb[1]} << 8 | rgb[2];
}

/// Four channels apart, wide enough to be weighted and summed.
using Sums = std::array<std::uint64_t, 4>;

void add(Sums& sums, std::uint32_t pixel, std::uint64_t weight) {
  for (int c = 0; c < 4; ++c) sums[c] += weight * (pixel >> (8 * c) & 0xff);
}

/// The one or two or three neighbours that pixel `to` of a side halved from `from` to `n` pixels
/// covers, with their weights; the weights' sum is `from`.
struct Cover {
  int first;
  std::array<std::uint64_t, 3> weights;
};

Cover cover(int to, int from, int n) {
  const std::int64_t begin = std::int64_t{to} * from, end = begin + from;
  Cover c{static_cast<int>(begin / n), {}};
  for (int i = 0; i < 3; ++i) {
    const std::int64_t left = std::int64_t{c.first + i} * n;
    const std::int64_t shared = std::min(end, left + n) - std::max(begin, left);
    c.weights[i] = static_cast<std::uint64_t>(std::max<std::int64_t>(shared, 0));
  }
  return c;
}

std::uint32_t mean(const Raster& raster, const Cover& across, const Cover& down) {
  Sums sums{};
  for (int j = 0; j < 3; ++j) {
    if (down.weights[j] == 0) continue;
    const std::uint32_t* row =
        raster.pixels.data() + static_cast<std::size_t>(down.first + j) * raster.width;
    for (int i = 0; i < 3; ++i) {
      const std::uint64_t weight = across.weights[i] * down.weights[j];
      if (weight != 0) add(sums, row[across.first + i], weight);
    }
  }
  const std::uint64_t whole = std::uint64_t(raster.width) * std::uint64_t(raster.height);
  std::uint32_t pixel = 0;
  for (int c = 0; c < 4; ++c) {
    pixel |= static_cast<std::uint32_t>((sums[c] + whole / 2) / whole) << (8 * c);
  }
  return pixel;
}

/// The mean of two by two pixels, two channels at a time.
std::uint32_t mean_of_four(std::uint32_t a, std::uint32_t b, std::uint32_t c, std::uint32_t d) {
  constexpr std::uint32_t odd = 0x00ff00ff;
  const std::uint32_t low = (a & odd) + (b & odd) + (c & odd) + (d & odd) + 0x00020002;
  const std::uint32_t high =
      (a >> 8 & odd) + (b >> 8 & odd) + (c >> 8 & odd) + (d >> 8 & odd) + 0x00020002;
  return (low >> 2 & odd) | (high >> 2 & odd) << 8;
}

void halve_even(const Raster& from, Raster& to) {
  for (int y = 0; y < to.height; ++y) {
    const std::uint32_t* above = from.pixels.data() + std::size_t(2 * y) * from.width;
    const std::uint32_t* below = above + from.width;
    std::uint32_t* out = to.pixels.data() + std::size_t(y) * to.width;
    for (int x = 0; x < to.width; ++x) {
      out[x] = mean_of_four(above[2 * x], above[2 * x + 1], below[2 * x], below[2 * x + 1]);
    }
  }
}

void halve_odd(const Raster& from, Raster& to) {
  std::vector<Cover> across;
  for (int x = 0; x < to.width; ++x) across.push_back(cover(x, from.width, to.width));
  for (int y = 0; y < to.height; ++y) {
    const Cover down = cover(y, from.height, to.height);
    std::uint32_t* out = to.pixels.data() + std::size_t(y) * to.width;
    for (int x = 0; x < to.width; ++x) out[x] = mean(from, across[x], down);
  }
}

}  // namespace

Raster upright(const Bitmap& bitmap, int orientation) {
  Raster raster;
  const bool sideways = turns_sideways(orientation);
  raster.width = sideways ? bitmap.height : bitmap.width;
  raster.height = sideways ? bitmap.width : bitmap.height;
  raster.pixels.resize(bitmap.pixel_count());
  const Walk walk = upright_walk(orientation, bitmap.width, bitmap.height);
  const ToSrgb to_srgb(bitmap);
  const auto channels = static_cast<std::size_t>(bitmap.channels());
  const auto width = static_cast<std::size_t>(bitmap.width);
  std::vector<std::uint8_t> rgb(width * 3);
  for (int y = 0; y < bitmap.height; ++y) {
    const std::uint8_t* row = bitmap.samples.data() + std::size_t(y) * width * channels;
    to_srgb.convert(row, rgb.data(), width);
    std::uint32_t* out = raster.pixels.data() + (walk.start + y * walk.down);
    for (std::size_t x = 0; x < width; ++x, row += channels) {
      const std::uint8_t* colour = rgb.data() + 3 * x;
      out[std::ptrdiff_t(x) * walk.right] =
          bitmap.has_alpha ? premultiplied(colour, row[channels - 1]) : opaque(colour);
    }
  }
  return raster;
}

Raster halved(const Raster& raster) {
  Raster half;
  half.width = (raster.width + 1) / 2;
  half.height = (raster.height + 1) / 2;
  half.pixels.resize(static_cast<std::size_t>(half.width) * static_cast<std::size_t>(half.height));
  const bool even = raster.width % 2 == 0 && raster.height % 2 == 0;
  even ? halve_even(raster, half) : halve_odd(raster, half);
  return half;
}

int width_for(int width, int at_most_wide) {
  if (at_most_wide <= 0) return width;
  while (width > 1 && (width + 1) / 2 >= at_most_wide) width = (width + 1) / 2;
  return width;
}

}  // namespace quoin::pictures
