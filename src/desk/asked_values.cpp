#include "desk/asked_values.h"

#include <charconv>

namespace quoin::desk {

std::optional<std::string> between(const std::string& path, std::string_view begin,
                                   std::string_view end) {
  const bool fits =
      path.size() > begin.size() + end.size() && path.starts_with(begin) && path.ends_with(end);
  if (!fits) return std::nullopt;
  return path.substr(begin.size(), path.size() - begin.size() - end.size());
}

std::optional<int> number_in(const std::string& text, int low, int high) {
  int number = 0;
  const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), number);
  const bool is_whole = fault == std::errc() && end == text.data() + text.size();
  return is_whole && number >= low && number <= high ? std::optional(number) : std::nullopt;
}

}  // namespace quoin::desk
