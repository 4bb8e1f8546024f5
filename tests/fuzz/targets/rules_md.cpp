// Reads bytes as the rules of a sound game.
#include <cstdint>

#include "rules/manuscript.h"

namespace {

constexpr const char* game_toml = R"([game]
title = "Fuzzed"
[suits.sun]
name = "Sun"
[symbols]
sun = "art/sun.svg"
[[layouts]]
file = "layouts/face.toml"
)";
constexpr const char* sun_svg =
    R"(<svg xmlns="http://www.w3.org/2000/svg" width="4" height="4"><path d="M0 0H4V4z"/></svg>)";

/// How many parts there are, all that they hold counted; traps where one is not as promised.
std::size_t count_parts(const std::vector<quoin::rules::Part>& parts, std::size_t cards) {
  std::size_t count = 0;
  for (const quoin::rules::Part& part : parts) {
    if (part.kind == quoin::rules::PartKind::picture && !part.picture) __builtin_trap();
    for (const int card : part.cards) {
      if (card < 0 || static_cast<std::size_t>(card) >= cards) __builtin_trap();
    }
    count += 1 + count_parts(part.parts, cards);
  }
  return count;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  quoin::MemoryWorld world;
  world.put("game.toml", game_toml);
  world.put("cards.csv", "id,suit,name,copies\na,sun,Adder,1\nb,sun,Boar,2\n");
  world.put("layouts/face.toml", "");
  world.put("art/sun.svg", sun_svg);
  world.put("rules.md", quoin::Bytes(reinterpret_cast<const char*>(data), size));
  const quoin::Checked<quoin::game::Game> read = quoin::game::read_game(world);
  if (!read.value.rules) return 0;
  quoin::Diagnostics found;
  quoin::PictureShelf shelf(world);
  const quoin::pieces::Studio studio(read.value, shelf, found);
  const auto rules = quoin::rules::read_manuscript(studio, *read.value.rules, {"One", "Two"});
  (void)count_parts(rules.value.parts, read.value.cards.size());
  for (const quoin::Diagnostic& one : rules.found) {
    if (one.message.empty()) __builtin_trap();
    if (one.origin.file.str() == "rules.md" && one.origin.line > size + 1) __builtin_trap();
  }
  return 0;
}
