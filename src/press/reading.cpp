#include "press/reading.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <string>
#include <vector>

namespace quoin::press {
namespace {

/// Words in lower case, a comma as a point, signs that mean the same made one, blanks single.
std::string plain(std::string_view words) {
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i) {
    const auto follows = [&](std::string_view sign) { return words.substr(i).starts_with(sign); };
    const auto take = [&](std::string_view sign, std::string_view as) {
      text += as;
      i += sign.size() - 1;
    };
    if (follows("\u2212") || follows("\u2013")) {
      take("\u2212", "-");
    } else if (follows("\u00bd")) {
      take("\u00bd", " 1/2");
    } else if (follows("\u2033") || follows("\u201d")) {
      take("\u2033", "\"");
    } else if (words[i] == ',') {
      text += '.';
    } else if (words[i] == '\t' || words[i] == '\n' || words[i] == '\r') {
      text += ' ';
    } else {
      text += static_cast<char>(words[i] >= 'A' && words[i] <= 'Z' ? words[i] + 32 : words[i]);
    }
  }
  return text;
}

void skip_blanks(std::string_view& rest) {
  while (!rest.empty() && rest.front() == ' ') rest.remove_prefix(1);
}

/// An unsigned decimal number at the start of `rest`.
std::optional<double> decimal(std::string_view& rest) {
  const std::size_t digits = std::min(rest.find_first_not_of("0123456789."), rest.size());
  double value = 0;
  const auto [end, failed] = std::from_chars(rest.data(), rest.data() + digits, value);
  if (failed != std::errc{} || end != rest.data() + digits) return std::nullopt;
  rest.remove_prefix(digits);
  return value;
}

/// A signed number, with a fraction behind it or alone: "5 7/8", "-3/10".
std::optional<double> number(std::string_view& rest) {
  skip_blanks(rest);
  double sign = 1;
  if (!rest.empty() && (rest.front() == '-' || rest.front() == '+')) {
    sign = rest.front() == '-' ? -1 : 1;
    rest.remove_prefix(1);
    skip_blanks(rest);
  }
  const auto over = [&](double above) -> std::optional<double> {
    rest.remove_prefix(1);
    const auto below = decimal(rest);
    if (!below || *below == 0) return std::nullopt;
    return above / *below;
  };
  const auto first = decimal(rest);
  if (!first) return std::nullopt;
  if (!rest.empty() && rest.front() == '/') {
    const auto fraction = over(*first);
    return fraction ? std::optional(sign * *fraction) : std::nullopt;
  }
  std::string_view ahead = rest;
  skip_blanks(ahead);
  const auto above = decimal(ahead);
  if (!above || ahead.empty() || ahead.front() != '/') return sign * *first;
  rest = ahead;
  const auto fraction = over(*above);
  return fraction ? std::optional(sign * (*first + *fraction)) : std::nullopt;
}

std::optional<double> unit(std::string_view words) {
  if (words.empty() || words == "mm" || words == "millimetres" || words == "millimeters") return 1;
  if (words == "cm" || words == "centimetres" || words == "centimeters") return 10;
  if (words == "in" || words == "in." || words == "\"" || words == "inch" || words == "inches") {
    return mm_per_inch;
  }
  return std::nullopt;
}

std::string_view trimmed(std::string_view words) {
  skip_blanks(words);
  while (!words.empty() && words.back() == ' ') words.remove_suffix(1);
  return words;
}

/// Takes a word off the front when it is there.
bool take(std::string_view& rest, std::string_view word) {
  skip_blanks(rest);
  if (!rest.starts_with(word)) return false;
  rest.remove_prefix(word.size());
  return true;
}

}  // namespace

std::optional<Mm> length_in_words(std::string_view words) {
  const std::string text = plain(words);
  std::string_view rest = text;
  const auto value = number(rest);
  if (!value) return std::nullopt;
  const auto of = unit(trimmed(rest));
  if (!of) return std::nullopt;
  const double length = *value * *of;
  if (!(std::abs(length) <= 10'000)) return std::nullopt;
  return Mm{length};
}

std::optional<double> line_in_words(std::string_view words) {
  const std::string text = plain(words);
  std::string_view rest = text;
  (void)take(rest, "between");
  const auto first = number(rest);
  if (!first) return std::nullopt;
  double line = *first;
  if (take(rest, "and") || take(rest, "or")) {
    const auto second = number(rest);
    if (!second || std::abs(std::abs(*second - *first) - 1) > 1e-9) return std::nullopt;
    line = (*first + *second) / 2;
  }
  if (!trimmed(rest).empty() || !(std::abs(line) <= 20)) return std::nullopt;
  return line;
}

}  // namespace quoin::press
