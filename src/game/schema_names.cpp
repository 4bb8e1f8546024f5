#include "game/schema_names.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

#include "game/game.h"
#include "game/schema_check.h"
#include "game/words.h"

namespace quoin::game {
namespace {

/// What makers who know other tools are likely to write, and our word for it.
constexpr std::array<std::pair<std::string_view, std::string_view>, 40> other_words{{
    {"color", "colour"},
    {"colors", "colours"},
    {"fonts", "font"},
    {"family", "font"},
    {"typeface", "font"},
    {"font-family", "font"},
    {"font-size", "type"},
    {"fontsize", "type"},
    {"text-size", "type"},
    {"size", "type"},
    {"bold", "weight"},
    {"font-weight", "weight"},
    {"line-height", "leading"},
    {"letter-spacing", "spacing"},
    {"tracking", "spacing"},
    {"text-align", "align"},
    {"vertical-align", "valign"},
    {"src", "picture"},
    {"source", "picture"},
    {"image", "picture"},
    {"file", "picture"},
    {"x", "at"},
    {"y", "at"},
    {"position", "at"},
    {"pos", "at"},
    {"width", "size"},
    {"height", "size"},
    {"margin", "inset"},
    {"padding", "inset"},
    {"rotate", "rotation"},
    {"angle", "rotation"},
    {"alpha", "opacity"},
    {"transparency", "opacity"},
    {"border", "stroke"},
    {"line", "stroke"},
    {"background", "fill"},
    {"corner-radius", "radius"},
    {"type", "kind"},
    {"if", "when"},
    {"columns", "grid"},
}};

constexpr std::array<std::pair<std::string_view, std::string_view>, 12> other_values{{
    {"center", "centre"},
    {"middle", "centre"},
    {"miter", "mitre"},
    {"rect", "rectangle"},
    {"circle", "ellipse"},
    {"image", "picture"},
    {"caps", "upper"},
    {"uppercase", "upper"},
    {"crop", "cover"},
    {"duplex", "printer"},
    {"manual", "by-hand"},
    {"fill", "stretch"},
}};

template <typename Words>
std::optional<std::string> ours(const Words& words, std::string_view theirs,
                                const std::vector<std::string>& known) {
  for (const auto& [other, own] : words) {
    if (other == lower_case(theirs) && std::find(known.begin(), known.end(), own) != known.end()) {
      return std::string(own);
    }
  }
  return std::nullopt;
}

/// The heading under which a key of that name belongs, for one written in the wrong place.
std::string home_of(std::string_view key) {
  for (const std::vector<SectionFacts>* all :
       {&game_sections(), &layout_sections(), &printer_sections()}) {
    for (const SectionFacts& section : *all) {
      for (const PropertyFacts& facts : keys_of(section.name)) {
        if (facts.key == key) return std::string(section.heading);
      }
    }
  }
  return {};
}

bool hex_digits(std::string_view text) {
  return std::all_of(text.begin(), text.end(), [](char c) {
    return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f') || (c >= 'A' && c <= 'F');
  });
}

}  // namespace

std::optional<std::string> nearest_word(std::string_view word,
                                        const std::vector<std::string>& known) {
  if (auto own = ours(other_values, word, known)) return own;
  return nearest(word, known);
}

std::optional<Diagnostic> colour_problem(std::string_view text, const Origin& where,
                                         const KnownNames& names) {
  if (text.starts_with('#')) {
    const std::string_view digits = text.substr(1);
    const std::size_t n = digits.size();
    if (hex_digits(digits) && (n == 3 || n == 4 || n == 6 || n == 8)) return std::nullopt;
    Diagnostic found(Id::game_unknown_colour, where,
                     fmt::format("{} is no colour", in_quotes(text)));
    return found.hint("after # come 3, 4, 6 or 8 of the digits 0 to 9 and a to f: #1d2b33");
  }
  std::vector<std::string> known = names.colours;
  for (const char* word : {"black", "white", "transparent"}) known.emplace_back(word);
  if (std::find(known.begin(), known.end(), text) != known.end()) return std::nullopt;
  Diagnostic found(Id::game_unknown_colour, where,
                   fmt::format("there is no colour {}", in_quotes(text)));
  if (const auto meant = nearest(text, known)) {
    return found.hint(fmt::format("did you mean {}?", in_quotes(*meant)));
  }
  return found.hint("write it as \"#1d2b33\", or name it under [colours] in game.toml");
}

Diagnostic unknown_name(Id id, std::string_view thing, std::string_view name, const Origin& where,
                        const std::vector<std::string>& known) {
  Diagnostic found(id, where, fmt::format("there is no {} {}", thing, in_quotes(name)));
  const std::string hint = instead_of(name, known);
  if (!hint.empty()) found.hint(hint);
  return found;
}

std::optional<std::string> other_word(const KeySet& keys, std::string_view key) {
  std::vector<std::string> known;
  for (const PropertyFacts* facts : keys.known) known.emplace_back(facts->key);
  return ours(other_words, key, known);
}

Diagnostic unknown_key(const KeySet& keys, const Entry& entry) {
  Diagnostic found(Id::game_unknown_key, entry.key_origin,
                   fmt::format("{} has no key {}", keys.called, entry.key));
  std::vector<std::string> known;
  for (const PropertyFacts* facts : keys.known) known.emplace_back(facts->key);
  if (const auto own = other_word(keys, entry.key)) {
    return found.hint(fmt::format("did you mean {}?", *own));
  }
  if (const auto meant = nearest(entry.key, known)) {
    return found.hint(fmt::format("did you mean {}?", *meant));
  }
  const std::string home = home_of(entry.key);
  if (!home.empty()) return found.hint(fmt::format("{} belongs to {}", entry.key, home));
  if (known.size() <= 20) return found.hint(fmt::format("it can have {}", all_of(known)));
  return found.hint("docs/game-files.md lists all keys");
}

}  // namespace quoin::game
