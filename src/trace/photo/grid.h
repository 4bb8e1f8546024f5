#pragma once
#include <vector>

#include "trace/photo/weigh.h"

namespace quoin::trace {

/// Equal cards in rows and columns, in reading order; empty when there is no such grid of at least
/// two. Cards that touch are told apart by the frames printed on them, whose distance is then that
/// of the cards.
[[nodiscard]] std::vector<Weighed> grid_in(const View& view, const CardShape& shape);

}  // namespace quoin::trace
