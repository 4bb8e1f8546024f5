// Reads bytes as art/sources.csv and asks of a few files whether they may be given on.
#include <cstdint>

#include "game/game.h"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  quoin::MemoryWorld world;
  world.put("art/sources.csv", quoin::Bytes(reinterpret_cast<const char*>(data), size));
  for (const char* file : {"art/gull.svg", "art/finds/whelk.svg", "fonts/Text.otf"}) {
    world.put(file, "x");
  }
  const quoin::Checked<quoin::game::Sources> read = quoin::game::read_sources(world);
  for (const quoin::Diagnostic& one : read.found) {
    // Whatever stands in the list, a maker's own use is never blocked.
    if (one.severity != quoin::Severity::note || one.message.empty()) __builtin_trap();
  }
  if (read.value.patterns.size() > 500) __builtin_trap();
  for (const quoin::game::SourceRow& row : read.value.rows) {
    if (row.path.empty()) __builtin_trap();
  }
  quoin::game::Game game;
  game.sources = read.value;
  for (const char* file : {"art/gull.svg", "fonts/Text.otf"}) {
    const auto why = quoin::game::hindrance(game.sources, file, quoin::game::Asked::no);
    if (why && why->message.empty()) __builtin_trap();
  }
  for (const std::string& line : quoin::game::credits(game)) {
    if (line.empty()) __builtin_trap();
  }
  return 0;
}
