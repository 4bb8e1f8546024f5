#include "press/fitness.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <charconv>
#include <cmath>
#include <set>
#include <string>

namespace quoin::press {
namespace {

constexpr double same_weight = 0.1;

bool is_digit(char c) { return std::isdigit(static_cast<unsigned char>(c)) != 0; }
/// Letters of ASCII and every byte of other letters.
bool is_letter(char c) {
  return std::isalpha(static_cast<unsigned char>(c)) != 0 || (static_cast<unsigned char>(c) & 0x80);
}

/// "g", "gsm", "g/m²" begin what follows the number.
bool begins_with_grams(std::string_view rest) {
  while (!rest.empty() && rest.front() == ' ') rest.remove_prefix(1);
  if (rest.empty() || std::tolower(static_cast<unsigned char>(rest.front())) != 'g') return false;
  return rest.size() == 1 || !is_letter(rest[1]) || rest.substr(1).starts_with("sm") ||
         rest.substr(1).starts_with("SM");
}

/// Words of two letters and more, small; what tells a weight left out.
std::set<std::string> names_in(std::string_view words) {
  std::set<std::string> names;
  std::string name;
  for (std::size_t i = 0; i <= words.size(); ++i) {
    if (i < words.size() && is_letter(words[i])) {
      name += static_cast<char>(std::tolower(static_cast<unsigned char>(words[i])));
      continue;
    }
    if (name.size() > 1 && name != "gsm" && name != "m²") names.insert(name);
    name.clear();
  }
  return names;
}

bool share_a_word(const std::set<std::string>& a, const std::set<std::string>& b) {
  return std::any_of(a.begin(), a.end(), [&](const std::string& each) { return b.contains(each); });
}

Diagnostic other(const Profile& profile, const Origin& asked, std::string message) {
  Diagnostic problem(Id::press_other_stock, asked, std::move(message));
  problem.detail("a printer draws in each paper in its own way, so backs may stray otherwise");
  return problem.hint(
      fmt::format("print the measuring sheet on the game's stock, and keep it under another name "
                  "than {}",
                  profile.id));
}

}  // namespace

std::optional<double> grammage_in(std::string_view words) {
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (!is_digit(words[i]) || (i > 0 && (is_digit(words[i - 1]) || words[i - 1] == '.'))) continue;
    double value = 0;
    const char* const end = words.data() + words.size();
    const auto read = std::from_chars(words.data() + i, end, value);
    if (read.ec != std::errc{}) continue;
    if (begins_with_grams({read.ptr, static_cast<std::size_t>(end - read.ptr)})) return value;
  }
  return std::nullopt;
}

std::optional<Diagnostic> other_stock(const Profile& profile, const game::Stock& stock,
                                      const Origin& asked) {
  const std::optional<double> measured = grammage_in(profile.stock);
  const std::optional<double> wanted = stock.grammage ? stock.grammage : grammage_in(stock.name);
  if (measured && wanted) {
    if (std::abs(*measured - *wanted) <= same_weight * *wanted) return std::nullopt;
    return other(profile, asked,
                 fmt::format("{} was measured on {:g} g/m², and the cards' stock is {:g} g/m²",
                             profile.id, *measured, *wanted));
  }
  const std::set<std::string> there = names_in(profile.stock), here = names_in(stock.name);
  if (there.empty() || here.empty() || share_a_word(there, here)) return std::nullopt;
  return other(profile, asked,
               fmt::format("{} was measured on \"{}\", and the cards' stock is \"{}\"", profile.id,
                           profile.stock, stock.name));
}

std::optional<Diagnostic> measured_long_ago(const Profile& profile, std::string_view today,
                                            const Origin& asked) {
  // Days with the year first, as `read_profile` takes no others: they compare as their letters do.
  constexpr std::size_t day_size = 10, year_size = 4;
  if (today.size() != day_size || profile.measured.size() != day_size) return std::nullopt;
  const int year = std::atoi(profile.measured.substr(0, year_size).c_str());
  const std::string a_year_on =
      fmt::format("{:04}{}", year + 1, profile.measured.substr(year_size));
  if (today <= a_year_on) return std::nullopt;
  Diagnostic problem(
      Id::press_measured_long_ago, asked,
      fmt::format("{} was measured on {}, and today is {}", profile.id, profile.measured, today));
  return problem.hint("measure it again: quoin printer sheet makes the sheet for it");
}

}  // namespace quoin::press
