#include "trace/photo/doubts.h"

#include <fmt/format.h>

#include <algorithm>

namespace quoin::trace {
namespace {

constexpr double uneven = 0.30;        // px that an edge strays from its line
constexpr double far_step = 3;         // px
constexpr double faint = 0.6;          // of a side at which its edge is seen
constexpr double askew = 2.0;          // misfit of the pose, hundredths
constexpr double same_place = 2.5;     // px: outlines this near are one
constexpr double same_card = 6;        // px: outlines this near differ in a side's shadow only
constexpr double rival_beside = 0.97;  // of the best score
constexpr double rival = 0.93;

void doubt_sides(const Outline& outline, std::vector<std::string>& doubts) {
  double stray = 0, beside = 0;
  for (const Side& side : outline.sides) {
    stray = std::max(stray, side.residual);
    beside = std::max(beside, side.other_step);
  }
  if (stray > uneven || beside >= far_step) {
    doubts.emplace_back("the edge of one side is hard to tell from a shadow or a line beside it");
  }
  if (outline.least_support() < faint) {
    doubts.push_back(fmt::format("along one side the edge is seen at {:.0f} % of its length only",
                                 100 * outline.least_support()));
  }
}

void doubt_shape(const Weighed& best, const CardShape& shape, std::vector<std::string>& doubts) {
  if (best.pose.misfit > askew) {
    const double given =
        std::min(shape.size.width / shape.size.height, shape.size.height / shape.size.width);
    const double seen = std::min(best.pose.proportion, 1 / best.pose.proportion);
    const double off = std::abs(seen / given - 1);
    doubts.push_back(
        off < 0.01 ? "its corners are not those of a flat card seen from anywhere"
                   : fmt::format("its sides are as 1 to {:.3f}, and those of the card that was "
                                 "looked for as 1 to {:.3f}",
                                 1 / seen, 1 / given));
  }
  if (shape.corner.value > 0 && best.roundness > 0.25 && best.roundness < 0.85) {
    doubts.emplace_back("some of its corners look round and others square");
  }
}

}  // namespace

std::vector<std::string> doubts_on(const View& view, const std::vector<Weighed>& outlines,
                                   const CardShape& shape) {
  std::vector<std::string> doubts;
  const Weighed& best = outlines.front();
  const Corners seen = best.outline.seen();
  doubt_sides(best.outline, doubts);
  doubt_shape(best, shape, doubts);
  double beside = 0, elsewhere = 0;
  for (const Weighed& other : outlines) {
    const double off = farthest_corner(other.outline.seen(), seen);
    if (off > same_card) {
      elsewhere = std::max(elsewhere, other.score / best.score);
    } else if (off > same_place) {
      beside = std::max(beside, other.score / best.score);
    }
  }
  if (beside > rival_beside || elsewhere > rival) {
    doubts.emplace_back("another shape in the picture fits about as well, such as a printed frame");
  }
  const double near = 0.004 * view.longer();
  const bool at_rim = std::any_of(seen.begin(), seen.end(), [&](Spot p) {
    return p.x < near || p.y < near || p.x > view.width() - near || p.y > view.height() - near;
  });
  if (at_rim) doubts.emplace_back("a corner lies at the edge of the picture, or outside it");
  return doubts;
}

}  // namespace quoin::trace
