#include "game/natural_order.h"

#include <string>

#include "game/words.h"

namespace quoin::game {
namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }

/// The digits at the front without leading zeros; `text` moves past them.
std::string_view take_digits(std::string_view& text) {
  std::size_t end = 0;
  while (end < text.size() && is_digit(text[end])) ++end;
  std::string_view digits = text.substr(0, end);
  text.remove_prefix(end);
  while (digits.size() > 1 && digits.front() == '0') digits.remove_prefix(1);
  return digits;
}

/// Negative, zero or positive, as `a` comes before, with or after `b`.
int compare(std::string_view a, std::string_view b) {
  while (!a.empty() && !b.empty()) {
    if (is_digit(a.front()) && is_digit(b.front())) {
      const std::string_view first = take_digits(a), second = take_digits(b);
      if (first.size() != second.size()) return first.size() < second.size() ? -1 : 1;
      if (const int order = first.compare(second); order != 0) return order;
      continue;
    }
    const auto first = static_cast<unsigned char>(a.front());
    const auto second = static_cast<unsigned char>(b.front());
    if (first != second) return first < second ? -1 : 1;
    a.remove_prefix(1);
    b.remove_prefix(1);
  }
  return a.empty() ? (b.empty() ? 0 : -1) : 1;
}

}  // namespace

bool comes_before_naturally(std::string_view a, std::string_view b) {
  const int order = compare(lower_case(a), lower_case(b));
  return order != 0 ? order < 0 : a < b;
}

}  // namespace quoin::game
