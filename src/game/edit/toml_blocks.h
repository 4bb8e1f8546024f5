#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "game/edit/text_splice.h"
#include "game/edit/toml_source.h"

namespace quoin::game {

/// Whole lines that belong together: a heading with the remarks directly above it and all that
/// stands below it.
struct Block {
  Stretch at;
  bool is_whole = true;  ///< false when parts of it stand elsewhere in the file
};

/// The items of a list that is written as `[[name]]` blocks, in order.
[[nodiscard]] std::vector<Block> blocks_of(const TomlSource& source, const ValuePath& list);

/// All lines of what is at or below a path, in as many runs as they stand in.
[[nodiscard]] std::vector<Block> runs_of(const TomlSource& source, const ValuePath& path);

/// Where the lines of a statement begin, with the remarks directly above it. Remarks that begin
/// the file are the file's own.
[[nodiscard]] std::size_t with_remarks(const TomlSource& source, const Statement& statement);

/// Takes whole lines away; of the empty lines round a block one group goes too.
[[nodiscard]] Splice take_lines(std::string_view text, Stretch lines);
[[nodiscard]] Splice take_block(std::string_view text, Stretch block);

/// Puts whole lines (without the last one's end) where a line begins, or behind the last line.
[[nodiscard]] Splice put_lines(std::string_view text, std::size_t at, std::string lines);

/// Puts a block before the one at `index`, or behind the last. `blocks` has one at least.
[[nodiscard]] Splice put_block(std::string_view text, const std::vector<Block>& blocks,
                               std::size_t index, std::string block);
/// Puts a block behind the line that ends at `at`, an empty line between.
[[nodiscard]] Splice put_block_after(std::string_view text, std::size_t at, std::string block);

/// The text without the ends of its last lines.
[[nodiscard]] std::string without_last_end(std::string_view lines);

}  // namespace quoin::game
