#pragma once
#include <string>
#include <vector>

#include "game/edit/toml_blocks.h"
#include "game/edit/toml_source.h"
#include "game/node.h"

namespace quoin::game {

/// "suits.shell" for a heading or a dotted key; places in lists are left out.
[[nodiscard]] std::string dotted(const ValuePath& path);

/// The lines of a table with its heading, `[name]` or `[[name]]`, in the spacing of the file's
/// neighbours. Lists of tables in it become blocks of their own.
[[nodiscard]] std::string section_lines(const TomlSource& source, const std::string& name,
                                        Statement::Kind kind, const Table& table);

/// Adds `key = value` to a table that is made by a heading, by dotted keys, by headings below it,
/// or is the file itself. `value` is as written.
[[nodiscard]] Splice add_entry(const TomlSource& source, const ValuePath& table,
                               const std::string& key, const std::string& value);

/// Whether a table inside `table` is given a heading of its own here, as its neighbours are.
[[nodiscard]] bool wants_heading(const TomlSource& source, const ValuePath& table);

/// Adds a block or a section behind all that belongs to `table`.
[[nodiscard]] Splice add_behind(const TomlSource& source, const ValuePath& table,
                                std::string lines);

}  // namespace quoin::game
