#include "sheets/wording.h"

#include <fmt/format.h>

#include <vector>

namespace quoin::sheets {

std::string number(Mm length) {
  std::string text = fmt::format("{:.2f}", length.value);
  while (text.back() == '0') text.pop_back();
  if (text.back() == '.') text.pop_back();
  return text == "-0" ? "0" : text;
}

std::string millimetres(Mm length) { return number(length) + " mm"; }

std::string millimetres(Size size) {
  return fmt::format("{} x {} mm", number(size.width), number(size.height));
}

std::string many(const std::string& one) {
  const bool hisses = !one.empty() && (one.back() == 'x' || one.back() == 's');
  return one + (hisses ? "es" : "s");
}

std::string counted(int count, const std::string& one) {
  return fmt::format("{} {}", count, count == 1 ? one : many(one));
}

std::string sides_narrower_than(Mm limit, Insets widths) {
  std::vector<std::string> sides;
  const auto look_at = [&](Mm width, const char* side) {
    if (!fits(limit, width)) sides.emplace_back(side);
  };
  look_at(widths.top, "top");
  look_at(widths.bottom, "bottom");
  look_at(widths.left, "left");
  look_at(widths.right, "right");
  if (sides.empty()) return "";
  if (sides.size() == 4) return "all four sides";
  std::string text = "the ";
  for (std::size_t i = 0; i < sides.size(); ++i) {
    if (i > 0) text += i + 1 == sides.size() ? " and " : ", ";
    text += sides[i];
  }
  return text;
}

}  // namespace quoin::sheets
