#include "game/card_id.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <map>

#include "game/encoding.h"
#include "game/words.h"

namespace quoin::game {
namespace {

bool is_id_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') || c == '-' ||
         c == '_' || c == '.';
}

/// Names that Windows keeps for devices, whatever follows the first dot ("Naming Files, Paths, and
/// Namespaces", Microsoft Learn; from memory).
bool is_device(std::string_view id) {
  const std::string name = lower_case(id.substr(0, id.find('.')));
  constexpr std::array<std::string_view, 4> devices{"con", "prn", "aux", "nul"};
  if (std::ranges::find(devices, name) != devices.end()) return true;
  const bool port = name.starts_with("com") || name.starts_with("lpt");
  return port && name.size() == 4 && name[3] >= '0' && name[3] <= '9';
}

/// Latin letters that are read as the same word without their accent, by the letters they become.
const std::map<std::string_view, std::string_view>& plain_letters() {
  static const std::map<std::string_view, std::string_view> all = [] {
    std::map<std::string_view, std::string_view> made;
    const auto add = [&](std::string_view plain, std::string_view accented) {
      while (!accented.empty()) {
        const std::size_t length = utf8_length(accented);
        made[accented.substr(0, length)] = plain;
        accented.remove_prefix(length);
      }
    };
    add("A", "ÀÁÂÃÅĀĂĄ"), add("a", "àáâãåāăą"), add("C", "ÇĆĈĊČ"), add("c", "çćĉċč");
    add("D", "ĎĐÐ"), add("d", "ďđð"), add("E", "ÈÉÊËĒĔĖĘĚ"), add("e", "èéêëēĕėęě");
    add("G", "ĜĞĠĢ"), add("g", "ĝğġģ"), add("H", "ĤĦ"), add("h", "ĥħ");
    add("I", "ÌÍÎÏĨĪĬĮİ"), add("i", "ìíîïĩīĭįı"), add("J", "Ĵ"), add("j", "ĵ");
    add("K", "Ķ"), add("k", "ķ"), add("L", "ĹĻĽŁ"), add("l", "ĺļľł"), add("N", "ÑŃŅŇ");
    add("n", "ñńņň"), add("O", "ÒÓÔÕØŌŎŐ"), add("o", "òóôõøōŏő"), add("R", "ŔŖŘ");
    add("r", "ŕŗř"), add("S", "ŚŜŞŠȘ"), add("s", "śŝşšș"), add("T", "ŢŤŦȚ"), add("t", "ţťŧț");
    add("U", "ÙÚÛŨŪŬŮŰŲ"), add("u", "ùúûũūŭůűų"), add("W", "Ŵ"), add("w", "ŵ");
    add("Y", "ÝŶŸ"), add("y", "ýÿŷ"), add("Z", "ŹŻŽ"), add("z", "źżž");
    add("ae", "äæ"), add("Ae", "ÄÆ"), add("oe", "öœ"), add("Oe", "ÖŒ"), add("ue", "ü");
    add("Ue", "Ü"), add("ss", "ß"), add("th", "þ"), add("Th", "Þ");
    // Combining grave, acute, circumflex, tilde, diaeresis, ring, caron and cedilla fall away.
    add("", "\u0300\u0301\u0302\u0303\u0308\u030A\u030C\u0327");
    return made;
  }();
  return all;
}

/// Takes '-' and '.' off the end.
void trim_end(std::string& id) {
  while (!id.empty() && (id.back() == '-' || id.back() == '.')) id.pop_back();
}

}  // namespace

std::optional<std::string> id_fault(std::string_view id) {
  if (id.empty()) return "is empty";
  for (std::size_t i = 0; i < id.size(); ++i) {
    if (is_id_letter(id[i])) continue;
    if (id[i] == ' ') return "has a space in it";
    const std::size_t length = std::max<std::size_t>(1, utf8_length(id.substr(i)));
    return fmt::format("has {} in it", in_quotes(id.substr(i, length)));
  }
  if (id.front() == '.' || id.back() == '.') return "begins or ends with a dot";
  if (id.size() > longest_id) {
    return fmt::format("has {} letters; it can have {}", id.size(), longest_id);
  }
  if (is_device(id)) return "is a name that some machines keep for themselves";
  return std::nullopt;
}

std::string id_from(std::string_view name) {
  std::string id;
  while (!name.empty() && id.size() < longest_id) {
    const std::size_t length = std::max<std::size_t>(1, utf8_length(name));
    const std::string_view letter = name.substr(0, length);
    name.remove_prefix(length);
    const auto plain = plain_letters().find(letter);
    if (length == 1 && is_id_letter(letter[0]))
      id += letter;
    else if (plain != plain_letters().end())
      id += plain->second;
    else if (!id.empty() && id.back() != '-')
      id += '-';
  }
  trim_end(id);
  id.erase(0, std::min(id.find_first_not_of(".-"), id.size()));
  if (is_device(id)) id.insert(0, "card-");
  id.resize(std::min(id.size(), longest_id));
  trim_end(id);
  return id;
}

}  // namespace quoin::game
