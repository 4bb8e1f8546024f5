#pragma once
#include <string>

namespace quoin {

/// The day by the clock and in the time zone of this machine, year first: "2026-11-28" (ISO 8601).
/// For those who speak to a person; what is made must not depend on it.
[[nodiscard]] std::string today();

}  // namespace quoin
