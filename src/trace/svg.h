#pragma once
#include <string>

#include "base/world.h"
#include "trace/tracing.h"

namespace quoin::trace {

/// The drawing as SVG 1.1, one user unit a pixel of the picture: a group for each layer with its
/// name as id and its name and colour as title, and a path or circle for each face. Where a face
/// reaches beneath a later one, its group ends with a stroke of 2 along those borders.
[[nodiscard]] Bytes write_svg(const Tracing& tracing, const std::string& title);

}  // namespace quoin::trace
