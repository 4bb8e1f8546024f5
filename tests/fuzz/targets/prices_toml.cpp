// Reads bytes as a prices.toml that games share, beside a sound game with prices of its own.
#include <cmath>
#include <cstdint>

#include "game/game.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  quoin::MemoryWorld world, machine;
  world.put("game.toml",
            "[game]\ntitle = \"Fuzzed\"\n[prices]\nsheet = 0.5\n[[layouts]]\n"
            "file = \"layouts/face.toml\"\n");
  world.put("cards.csv", "id,name,copies\na,Adder,1\n");
  world.put("layouts/face.toml",
            "[[element]]\nid = \"name\"\nkind = \"text\"\ntext = \"{name}\"\ninset = 5\n");
  machine.put("prices.toml", quoin::Bytes(reinterpret_cast<const char*>(data), size));
  const quoin::Checked<quoin::game::Game> read =
      quoin::game::read_game(world, {&machine, "machine/prices.toml"});
  // The game's own price stands whatever the file says, and no other is one that cannot be.
  const quoin::game::Prices& prices = read.value.making.prices;
  if (prices.sheet != 0.5) __builtin_trap();
  for (const auto& price : {prices.board, prices.ink, prices.glue, prices.sleeve}) {
    if (price && !(std::isfinite(*price) && *price >= 0)) __builtin_trap();
  }
  for (const quoin::Diagnostic& one : read.found) {
    if (one.message.empty()) __builtin_trap();
  }
  return 0;
}
