#pragma once
#include "job/trace/trace_game.h"

namespace quoin::job {

/// What became of the pictures, for other programs: an object with `pictures` and `found`.
[[nodiscard]] Bytes trace_report(const std::vector<TracedPicture>& pictures);
/// The same for a game; each picture also with its `ppi` and the pieces that show it.
[[nodiscard]] Bytes trace_report(const GameTraced& traced);

}  // namespace quoin::job
