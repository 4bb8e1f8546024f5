// Reads bytes as a layout in a sound game.
#include <cstdint>

#include "game/game.h"

namespace {

constexpr const char* game_toml = R"([game]
title = "Fuzzed"
[suits.sun]
colour = "#c8553d"
[[layouts]]
file = "layouts/face.toml"
)";
constexpr const char* cards_csv = "id,suit,name,copies\na,sun,Adder,1\nb,sun,Boar,2\n";
constexpr const char* face_toml = R"([[element]]
id = "name"
kind = "text"
text = "{name}"
inset = 5
)";

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  quoin::MemoryWorld world;
  world.put("game.toml", game_toml);
  world.put("cards.csv", cards_csv);
  world.put("layouts/face.toml", face_toml);
  world.put("layouts/face.toml", quoin::Bytes(reinterpret_cast<const char*>(data), size));
  const quoin::Checked<quoin::game::Game> read = quoin::game::read_game(world);
  // Whatever could be read refers only to what is there, and every card has a cell for each column.
  for (const quoin::game::Card& card : read.value.cards) {
    if (card.layout >= static_cast<int>(read.value.layouts.size())) __builtin_trap();
    if (card.cells.size() != read.value.columns.size()) __builtin_trap();
  }
  for (const quoin::Diagnostic& one : read.found) {
    if (one.message.empty()) __builtin_trap();
  }
  return 0;
}
