#pragma once
#include "base/result.h"
#include "base/world.h"
#include "game/node.h"

namespace quoin::game {

/// No TOML file of a game is larger than this: 4 MiB, a hundred times the longest we know.
inline constexpr std::size_t largest_toml = std::size_t{4} << 20;
/// A file with that many problems is not looked at further.
inline constexpr std::size_t most_toml_problems = 20;
/// Nor is a large one read again for each problem: not more than this many bytes altogether.
inline constexpr std::size_t most_toml_bytes = std::size_t{16} << 20;
/// Tables and lists lie at most this deep in each other.
inline constexpr int deepest_toml = 64;

/// Reads TOML 1.0 into a table whose keys stand in the order of the file. Each key and value
/// knows its place; columns count UTF-8 characters.
///
/// Integers become numbers. Dates have no use in a game: one is kept as the text it was written
/// as. Fails with `game.encoding`, `game.toml-syntax` and `game.toml-key-twice` (every place that
/// cannot be read, in the order of the file), and `game.too-large`.
[[nodiscard]] Result<Table> read_toml(const Bytes& bytes, FileName file);

}  // namespace quoin::game
