#include "making/likely_cuts.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <random>

namespace quoin::making {
namespace {

double normal(std::mt19937_64& random) {
  double sum = -6;
  for (int i = 0; i < 12; ++i) sum += static_cast<double>(random() >> 11) * 0x1.0p-53;
  return sum;
}

FallenCut fallen_cut(const press::Margins& margins, const press::ErrorBudget& e,
                     std::mt19937_64& random) {
  const Mm x = e.shift_x * normal(random), y = e.shift_y * normal(random);
  const Mm left = e.cut_left * normal(random) - x, top = e.cut_top * normal(random) - y;
  const Mm right = margins.trim.width + e.cut_right * normal(random) - x;
  const Mm bottom = margins.trim.height + e.cut_bottom * normal(random) - y;
  const Angle turn{e.turn.radians * normal(random)};
  const Affine map = Affine::turn_about(Rect{{}, margins.trim}.centre(), turn);
  return {map(Point{left, top}), map(Point{right, top}), map(Point{right, bottom}),
          map(Point{left, bottom})};
}

/// "1 in 40 shows …", "half show …"
std::string happens(double chance, std::string_view to_one, std::string_view to_many) {
  const std::string share = in_words(chance);
  const bool is_one = share == "none" || share.starts_with("1 in ");
  return fmt::format("{} {}", share, is_one ? to_one : to_many);
}

/// To a tenth, the second one upwards, so that "0.5 mm" is never less than what is needed.
std::string tenths(Mm length) { return fmt::format("{:.1f} mm", length.value); }
std::string tenths_up(Mm length) { return tenths(Mm{std::ceil(length.value * 10 - 1e-6) / 10}); }

constexpr Mm beyond_the_card{30};

}  // namespace

std::vector<FallenCut> fallen_cuts(const FaceTolerance& face, const press::ErrorBudget& errors,
                                   int cards, std::uint64_t seed) {
  std::mt19937_64 random(seed);
  std::vector<FallenCut> cuts;
  for (int i = 0; i < cards; ++i) cuts.push_back(fallen_cut(face.margins, errors, random));
  return cuts;
}

std::vector<std::string> chance_words(const FaceFacts& face, const FaceTolerance& tolerance) {
  const press::Chances& chances = tolerance.at_worst;
  std::vector<std::string> lines{
      happens(chances.white_edge, "shows a white edge", "show a white edge"),
      happens(chances.clipped, "is clipped", "are clipped")};
  if (face.measure.border) {
    lines.push_back(happens(chances.lopsided, "has a crooked border", "have a crooked border"));
  }
  return lines;
}

std::vector<Remedy> remedies(const FaceFacts& face, const FaceTolerance& tolerance,
                             const SideTolerance& side, double target) {
  std::vector<Remedy> all;
  if (face.measure.border) {
    all.push_back({"border", tenths(face.measure.border->width),
                   tenths_up(side.needed.border) + ", or none",
                   tolerance.at_worst.lopsided <= target});
  }
  const Mm bleed = std::max(tolerance.margins.bleed - seen_sliver, Mm{});
  const Mm bleed_needed = std::max(side.needed.bleed - seen_sliver, Mm{});
  if (face.measure.is_paper_at_edge) {
    all.push_back({"bleed", "no ink at the edge", "none", true});
  } else {
    all.push_back(
        {"bleed", tenths(bleed), tenths_up(bleed_needed), tolerance.at_worst.white_edge <= target});
  }
  const bool is_free = tolerance.margins.safe > beyond_the_card;
  all.push_back({"safe area", is_free ? "nothing near the edge" : tenths(tolerance.margins.safe),
                 tenths_up(side.needed.safe), tolerance.at_worst.clipped <= target});
  return all;
}

}  // namespace quoin::making
