#pragma once
#include <string>

#include "geometry/geometry.h"

namespace quoin::sheets {

/// "9.75", "3": millimetres to a hundredth without trailing zeros, never "-0".
[[nodiscard]] std::string number(Mm length);
/// "9.75 mm"
[[nodiscard]] std::string millimetres(Mm length);
/// "63.5 x 88.9 mm"
[[nodiscard]] std::string millimetres(Size size);
/// "1 sheet", "11 sheets", "2 boxes"
[[nodiscard]] std::string counted(int count, const std::string& one);
/// "sheets", "boxes"
[[nodiscard]] std::string many(const std::string& one);
/// The sides on which `widths` are below `limit`: "the top and bottom", "the left", "all four
/// sides"; "" when none is.
[[nodiscard]] std::string sides_narrower_than(Mm limit, Insets widths);

}  // namespace quoin::sheets
