#include "base/today.h"

#include <fmt/chrono.h>

#include <chrono>
#include <ctime>

namespace quoin {

std::string today() {
  const std::time_t now = std::chrono::system_clock::to_time_t(std::chrono::system_clock::now());
  return fmt::format("{:%Y-%m-%d}", fmt::localtime(now));
}

}  // namespace quoin
