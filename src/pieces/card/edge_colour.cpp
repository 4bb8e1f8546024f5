#include "pieces/card/edge_colour.h"

#include <cstdlib>

namespace quoin::pieces {
namespace {

constexpr int tolerance = 3;

bool alike(std::uint32_t a, std::uint32_t b) {
  for (int shift = 0; shift < 24; shift += 8) {
    if (std::abs(static_cast<int>((a >> shift) & 255) - static_cast<int>((b >> shift) & 255)) >
        tolerance) {
      return false;
    }
  }
  return true;
}

}  // namespace

std::optional<std::uint32_t> edge_colour(const FaceLook& look) {
  const Raster& picture = look.picture;
  if (picture.pixels.empty()) return std::nullopt;
  const int band = static_cast<int>((look.bleed.value + 1) * look_pixels_per_mm);
  const std::uint32_t colour = picture.pixels.front() & 0xFFFFFF;
  for (int y = 0; y < picture.height; ++y) {
    const bool whole_row = y < band || y >= picture.height - band;
    for (int x = 0; x < picture.width; ++x) {
      if (!whole_row && x == band && picture.width > 2 * band) x = picture.width - band;
      const std::size_t at = static_cast<std::size_t>(y) * picture.width + x;
      if (!alike(picture.pixels[at] & 0xFFFFFF, colour)) return std::nullopt;
    }
  }
  return colour;
}

bool edges_alike(std::optional<std::uint32_t> a, std::optional<std::uint32_t> b) {
  return a && b && alike(*a, *b);
}

}  // namespace quoin::pieces
