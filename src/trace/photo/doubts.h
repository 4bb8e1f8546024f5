#pragma once
#include <string>
#include <vector>

#include "trace/photo/weigh.h"

namespace quoin::trace {

/// Why the first of some outlines, the best, may not be the edge of the card: sentences for a
/// person. Limits were set so that few that are right are doubted
/// (docs/decisions/straightening.md).
[[nodiscard]] std::vector<std::string> doubts_on(const View& view,
                                                 const std::vector<Weighed>& outlines,
                                                 const CardShape& shape);

}  // namespace quoin::trace
