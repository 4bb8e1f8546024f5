#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "pieces/card/check_parts.h"
#include "pieces/card/measure_face.h"
#include "pieces/mat/check_mat.h"

namespace quoin::pieces {
namespace {

/// So many pixels are looked at at the most (32 MB): of a mat of A2 that is 4.9 a millimetre, of
/// one of 2 by 2 m 1.4.
constexpr double most_pixels = 8e6;

double pixels_per_mm(const MatPlan& plan) {
  const Size all = grown(Rect{{}, plan.size}, plan.ink()).size;
  return std::min(look_pixels_per_mm,
                  std::sqrt(most_pixels / (all.width.value * all.height.value)));
}

void check_type_on_table(const Inspection& inspection, Mm distance) {
  const CapitalHeights heights = capital_heights(distance);
  const Mm least = heights.least / capitals_of_type,
           comfortable = heights.comfortable / capitals_of_type;
  constexpr Mm forgiven{0.005};
  for (const Leaf& leaf : inspection.leaves) {
    if (leaf.text() == nullptr || leaf.role == Role::decoration) continue;
    const TextFacts& facts = leaf.text()->set.facts();
    if (facts.line_ink.empty()) continue;
    const double scale = mean_scale(leaf.map);
    const Mm printed = facts.type_size * scale;
    if (printed >= least - forgiven) continue;
    const double better = std::ceil(points(comfortable) / scale * 10 - 1e-6) / 10;
    Diagnostic& finding = inspection.report(
        Id::mat_small_type, leaf,
        fmt::format("the type prints at {}; from {} off, {} is the smallest that is read",
                    in_points(printed), in_mm(distance), in_points(least)));
    finding.detail(
        fmt::format("capitals would be {} high and should be {}: 16 minutes of arc (ISO 9241-303, "
                    "from memory)",
                    in_mm(printed * capitals_of_type), in_mm(heights.least)));
    const Mm asked = leaf.text()->block.style.type_size;
    if (facts.type_size < asked - epsilon) {
      finding.detail(fmt::format("it was shrunk from {} to fit its box", in_points(asked * scale)));
      finding.hint(fmt::format("shorten the text or make its box larger, and set minimum = {}",
                               plain(std::ceil(points(least) / scale * 10 - 1e-6) / 10, 1)));
    } else {
      finding.hint(fmt::format("type = {} is read with ease", plain(better, 1)));
    }
  }
}

/// Lines and words near the edge, but for those of places, which are told of as a whole; words of a
/// place only where it lies well itself.
void check_edges(const Inspection& whole, const MatInspection& mat) {
  std::set<std::string> places, told;
  for (const CardPlace& place : mat.mat.places) places.insert(place.element);
  for (const Diagnostic& one : mat.found) {
    if (one.id == Id::mat_place_near_edge) told.insert(one.place.element);
  }
  std::vector<Leaf> others;
  for (const Leaf& leaf : whole.leaves) {
    const std::string element = leaf.element();
    if (told.contains(element)) continue;
    if (leaf.text() != nullptr || !places.contains(element)) others.push_back(leaf);
  }
  const std::size_t before = whole.found.size();
  check_safe_area({whole.face, whole.limits, whole.look, others, whole.found});
  if (mat.mat.plan.hem <= Mm{}) return;
  for (std::size_t i = before; i < whole.found.size(); ++i) {
    whole.found[i].detail("on this mat of cloth the edge is the fold of the hem");
  }
}

}  // namespace

game::Limits mat_limits(const game::Game& game) {
  game::Limits limits = game.limits;
  limits.good_ppi = std::min(limits.good_ppi, finest_ppi(game.mat->viewing_distance));
  limits.poor_ppi = std::min(limits.poor_ppi, limits.good_ppi / 2);
  return limits;
}

std::array<double, 4> check_mat_print(const MatInspection& inspection, PictureShelf& shelf) {
  const Mat& mat = inspection.mat;
  const game::MatWishes& wishes = *inspection.game.mat;
  game::CardFormat format;
  format.size = mat.plan.size;
  format.corner = Mm{};
  format.bleed = mat.plan.ink();
  format.safe = wishes.safe;
  const Face face{"mat", mat.scene, format, game::mat_layout(inspection.game)->origin,
                  pixels_per_mm(mat.plan)};
  const FaceLook look = look_at(face, shelf);
  Diagnostics found = look.found;
  const std::vector<Leaf> leaves = leaves_of(mat.scene);
  const game::Limits limits = mat_limits(inspection.game);
  const Inspection inside{face, limits, look, leaves, found};
  check_resolution(inside);
  for (Diagnostic& one : found) {
    if (one.id != Id::art_low_resolution) continue;
    one.detail(fmt::format("from {} off the eye tells {:.0f} pixels an inch apart",
                           in_mm(wishes.viewing_distance), finest_ppi(wishes.viewing_distance)));
  }
  check_bleed(inside);
  check_edges(inside, inspection);
  check_setting(inside);
  check_type_on_table(inside, wishes.viewing_distance);
  check_lines(inside);
  check_contrast(inside);
  for (Diagnostic& one : found) inspection.found.push_back(std::move(one));
  return ink_on(look.picture);
}

}  // namespace quoin::pieces
