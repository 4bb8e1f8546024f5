#include "pieces/box/plan.h"

#include <algorithm>

namespace quoin::pieces {
namespace {

Mm usual_tuck(const fold::Block& inside, Mm play) {
  const Mm lid = inside.depth - play;
  return std::min(std::clamp(inside.depth * 0.8, Mm{12}, Mm{18}), lid * 3);
}

}  // namespace

BoxPlan plan_of(const game::BoxWishes& wishes, const fold::Block& inside, Mm board) {
  BoxPlan plan;
  plan.inside = inside;
  plan.board = board;
  plan.ends = wishes.ends;
  plan.locks = wishes.locks;
  plan.parts = wishes.parts == game::NetParts::two ? game::NetParts::two : game::NetParts::one;
  plan.glue_flap = wishes.glue_flap;
  plan.tuck_play = wishes.tuck_play;
  plan.tuck = wishes.tuck.value_or(usual_tuck(inside, wishes.tuck_play));
  plan.dust_flap = wishes.dust_flap.value_or(std::min({inside.depth, Mm{22}, inside.width * 0.45}));
  plan.notch = wishes.notch.value_or(std::min({Mm{9}, inside.width / 4, plan.tuck * (2.0 / 3)}));
  plan.corner = wishes.corner.value_or(plan.tuck / 3);
  plan.lid_height = wishes.lid_height.value_or(std::clamp(
      inside.depth * (2.0 / 3), std::min(Mm{10}, inside.depth + board), inside.depth + board));
  plan.fit = wishes.fit;
  return plan;
}

}  // namespace quoin::pieces
