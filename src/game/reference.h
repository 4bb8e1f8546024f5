#pragma once
#include <string>

namespace quoin::game {

/// docs/game-files.md: all files of a game folder with every key, for makers, as Markdown. Comes
/// from the table of schema.h; a test fails when the committed page is another.
[[nodiscard]] std::string game_files_page();

/// JSON Schema (draft 2020-12) of game.toml, for editors that check and complete while a maker
/// types. Says no more than the schema table: names that refer to each other are not checked.
[[nodiscard]] std::string game_json_schema();
/// The same for layouts/*.toml.
[[nodiscard]] std::string layout_json_schema();
/// The same for printers/*.toml.
[[nodiscard]] std::string printer_json_schema();
[[nodiscard]] std::string prices_json_schema();

}  // namespace quoin::game
