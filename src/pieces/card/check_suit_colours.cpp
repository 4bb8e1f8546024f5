#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <optional>

#include "pieces/card/check_suits.h"

namespace quoin::pieces {
namespace {

constexpr std::size_t levels = 32, cells = levels * levels * levels;
constexpr int hues = 24;                 // bins of 15 degrees
constexpr double colourful = 15;         // Lab chroma below this is taken as grey
constexpr double smallest_share = 0.02;  // of a card: less is an accent, not a suit's colour

std::size_t cell_of(std::uint32_t pixel) {
  return (pixel >> 19 & 31) << 10 | (pixel >> 11 & 31) << 5 | (pixel >> 3 & 31);
}

Colour colour_of_cell(std::size_t cell) {
  const auto part = [](std::size_t level) { return (static_cast<double>(level) + 0.5) / levels; };
  return {part(cell >> 10 & 31), part(cell >> 5 & 31), part(cell & 31), 1};
}

/// How much of a card each colour takes, 0..1.
using Shares = std::vector<double>;

Shares shares_of(const std::vector<std::uint32_t>& counts) {
  double total = 0;
  for (const std::uint32_t count : counts) total += count;
  Shares shares(counts.size(), 0);
  if (total == 0) return shares;
  for (std::size_t i = 0; i < counts.size(); ++i) shares[i] = counts[i] / total;
  return shares;
}

struct HueBin {
  double weight = 0;  // share times chroma
  double share = 0;
  Colour sum{0, 0, 0, 1};
};

void add_to(HueBin& bin, Colour colour, double share, double chroma) {
  bin.share += share;
  bin.weight += share * chroma;
  bin.sum.red += colour.red * share * chroma;
  bin.sum.green += colour.green * share * chroma;
  bin.sum.blue += colour.blue * share * chroma;
}

/// The mean colour of the weightiest hue, its two neighbours included.
std::optional<Colour> weightiest(const Shares& shares) {
  std::array<HueBin, hues> bins;
  double coloured = 0;
  for (std::size_t cell = 0; cell < shares.size(); ++cell) {
    if (shares[cell] <= 0) continue;
    const Colour colour = colour_of_cell(cell);
    const Lab lab = to_lab(colour);
    const double chroma = std::hypot(lab.a, lab.b);
    if (chroma < colourful) continue;
    coloured += shares[cell];
    const double turn = std::atan2(lab.b, lab.a) / (2 * std::numbers::pi);
    const int bin = static_cast<int>(std::floor(turn * hues + hues)) % hues;
    for (const int near : {bin + hues - 1, bin, bin + 1}) {
      add_to(bins[static_cast<std::size_t>(near % hues)], colour, shares[cell], chroma);
    }
  }
  if (coloured < smallest_share) return std::nullopt;
  const HueBin& best =
      *std::max_element(bins.begin(), bins.end(),
                        [](const HueBin& a, const HueBin& b) { return a.weight < b.weight; });
  return Colour{best.sum.red / best.weight, best.sum.green / best.weight,
                best.sum.blue / best.weight, 1};
}

/// What all suits have in common: backgrounds, frames, type.
Shares common_to(const std::map<std::string, Shares>& suits) {
  if (suits.size() < 2) return Shares(cells, 0);
  Shares common = suits.begin()->second;
  for (const auto& [suit, shares] : suits) {
    for (std::size_t i = 0; i < cells; ++i) common[i] = std::min(common[i], shares[i]);
  }
  return common;
}

}  // namespace

void SuitColours::add(const std::string& suit, const FaceLook& look) {
  if (suit.empty()) return;
  std::vector<std::uint32_t>& counts = seen_[suit];
  counts.resize(cells, 0);
  const auto edge = static_cast<int>(std::lround(look.bleed.value * look_pixels_per_mm));
  for (int y = edge; y < look.picture.height - edge; ++y) {
    const std::size_t row =
        static_cast<std::size_t>(y) * static_cast<std::size_t>(look.picture.width);
    for (int x = edge; x < look.picture.width - edge; ++x) {
      ++counts[cell_of(look.picture.pixels[row + static_cast<std::size_t>(x)])];
    }
  }
}

std::map<std::string, Colour> SuitColours::main_colours() const {
  std::map<std::string, Shares> suits;
  for (const auto& [suit, counts] : seen_) suits[suit] = shares_of(counts);
  const Shares common = common_to(suits);
  std::map<std::string, Colour> found;
  for (const auto& [suit, shares] : suits) {
    Shares own = shares;
    for (std::size_t i = 0; i < cells; ++i) own[i] -= common[i];
    std::optional<Colour> colour = weightiest(own);
    if (!colour) colour = weightiest(shares);
    if (colour) found[suit] = *colour;
  }
  return found;
}

}  // namespace quoin::pieces
