#pragma once
#include <vector>

#include "trace/photo/weigh.h"

namespace quoin::trace {

/// What may be the edge of a card in a picture, none twice, the best first.
[[nodiscard]] std::vector<Weighed> outlines_in(const View& view, const CardShape& shape);

}  // namespace quoin::trace
