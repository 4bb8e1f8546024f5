#include "formats/decimal.h"

#include <fmt/format.h>

#include <cmath>
#include <stdexcept>

namespace quoin {

std::string decimal(double value, int digits) {
  if (!std::isfinite(value)) throw std::logic_error("a place on a page is not a number");
  std::string text = fmt::format("{:.{}f}", value, digits);
  if (text.find('.') != std::string::npos) {
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
  }
  return text == "-0" ? "0" : text;
}

}  // namespace quoin
