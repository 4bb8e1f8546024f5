#include "game/words.h"

#include <fmt/format.h>

#include <bit>
#include <charconv>
#include <cmath>
#include <cstdint>
#include <cstring>

#include "game/game.h"

namespace quoin::game {
namespace {

bool is_space(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; }

std::string joined(const std::vector<std::string>& words, std::string_view last) {
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) text += i + 1 == words.size() ? last : ", ";
    text += words[i];
  }
  return text;
}

}  // namespace

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && is_space(text.front())) text.remove_prefix(1);
  while (!text.empty() && is_space(text.back())) text.remove_suffix(1);
  return text;
}

std::string lower_case(std::string_view text) {
  std::string lower(text);
  for (char& c : lower) {
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  }
  return lower;
}

std::size_t characters(std::string_view text) {
  std::size_t count = 0, i = 0;
  // Eight bytes at a time: those within a letter begin with the bits 10.
  for (std::uint64_t eight = 0; i + sizeof eight <= text.size(); i += sizeof eight) {
    std::memcpy(&eight, text.data() + i, sizeof eight);
    const std::uint64_t inner = (eight >> 7) & (~eight >> 6) & 0x0101010101010101;
    count += sizeof eight - static_cast<std::size_t>(std::popcount(inner));
  }
  for (; i < text.size(); ++i) count += (static_cast<unsigned char>(text[i]) & 0xC0) != 0x80;
  return count;
}

std::string number_text(double number) { return fmt::format("{}", number); }

std::optional<double> read_number(std::string_view text) {
  text = trimmed(text);
  if (text.starts_with('+')) {
    text.remove_prefix(1);
    if (text.starts_with('-')) return std::nullopt;
  }
  double number = 0;
  const char* end = text.data() + text.size();
  const auto [stop, error] = std::from_chars(text.data(), end, number);
  if (error != std::errc{} || stop != end || !std::isfinite(number)) return std::nullopt;
  return number;
}

std::string in_quotes(std::string_view text) { return "\"" + shortened(text) + "\""; }

std::string shortened(std::string_view text) {
  constexpr std::size_t longest = 60;
  std::string shown;
  std::size_t count = 0;
  for (const char c : text) {
    const bool starts = (static_cast<unsigned char>(c) & 0xC0) != 0x80;
    if (starts && ++count > longest) {
      shown += "…";
      break;
    }
    const bool control = static_cast<unsigned char>(c) < 0x20 || c == 0x7F;
    shown += control ? ' ' : c;
  }
  return shown;
}

std::string one_of(const std::vector<std::string>& words) {
  std::vector<std::string> all;
  for (const std::string& word : words) all.push_back(in_quotes(word));
  return joined(all, " or ");
}

std::string all_of(const std::vector<std::string>& words) { return joined(words, " and "); }

std::string counted(std::size_t count, std::string_view thing) {
  return fmt::format("{} {}{}", count, thing, count == 1 ? "" : "s");
}

std::string instead_of(std::string_view word, const std::vector<std::string>& known) {
  constexpr std::size_t readable = 12;
  if (const std::optional<std::string> meant = nearest(word, known)) {
    return fmt::format("did you mean {}?", in_quotes(*meant));
  }
  if (known.empty() || known.size() > readable) return {};
  return fmt::format("there {} {}", known.size() == 1 ? "is" : "are", joined(known, " and "));
}

}  // namespace quoin::game
