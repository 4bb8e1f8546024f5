#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "pieces/card/check_parts.h"

namespace quoin::pieces {
namespace {

/// True when the letters are lighter than what lies behind them: paper left free, with ink
/// creeping in from all sides.
bool is_knocked_out(const Inspection& inspection, const Leaf& leaf) {
  const std::vector<Colour> colours = letter_colours(leaf.text()->block.style);
  const std::optional<std::uint32_t> typical = inspection.typical_ground(leaf);
  if (colours.empty() || !typical) return false;
  return !is_paper(*typical) && relative_luminance(colours.front()) > luminance_of(*typical);
}

std::string remedy(const TextItem& text, const TextFacts& facts, double limit_points) {
  const bool shrunk = facts.type_size < text.block.style.type_size - epsilon;
  if (shrunk) {
    return fmt::format("shorten the text or make its box larger, and set minimum = {}",
                       plain(limit_points, 1));
  }
  return fmt::format("set type = {} or more", plain(limit_points, 1));
}

void check_one(const Inspection& inspection, const Leaf& leaf) {
  const TextItem& text = *leaf.text();
  const TextFacts& facts = text.set.facts();
  const double scale = mean_scale(leaf.map);
  const Mm printed = facts.type_size * scale;
  const game::Limits& limits = inspection.limits;
  constexpr Mm forgiven{0.005};
  if (printed >= std::max(limits.smallest_type, limits.smallest_type_knocked_out) - forgiven) {
    return;
  }
  const bool knocked_out = is_knocked_out(inspection, leaf);
  const Mm limit = knocked_out ? limits.smallest_type_knocked_out : limits.smallest_type;
  if (printed >= limit - forgiven) return;
  Diagnostic& finding = inspection.report(
      Id::card_small_type, leaf,
      knocked_out ? fmt::format("light type on a darker ground prints at {}; {} is the smallest "
                                "that stays open",
                                in_points(printed), in_points(limit))
                  : fmt::format("the type prints at {}; {} is the smallest that reads well",
                                in_points(printed), in_points(limit)));
  finding.detail(knocked_out ? "ink creeps into the letters from all sides and closes them"
                             : "letters this small fill in, and cards are read at arm's length");
  if (facts.type_size < text.block.style.type_size - epsilon) {
    finding.detail(fmt::format("it was shrunk from {} to fit its box",
                               in_points(text.block.style.type_size * scale)));
  }
  finding.hint(remedy(text, facts, std::ceil(points(limit) / scale * 10 - 1e-6) / 10));
}

}  // namespace

void check_type_size(const Inspection& inspection) {
  for (const Leaf& leaf : inspection.leaves) {
    if (leaf.text() == nullptr || leaf.role == Role::decoration) continue;
    if (leaf.text()->set.facts().line_ink.empty()) continue;
    check_one(inspection, leaf);
  }
}

}  // namespace quoin::pieces
