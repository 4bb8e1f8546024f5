#pragma once
#include <string>

namespace quoin {

/// `value` with at most `digits` digits after the point, without superfluous zeros and never "-0";
/// the same in every locale. Throws `std::logic_error` for what is no number.
[[nodiscard]] std::string decimal(double value, int digits);

}  // namespace quoin
