#pragma once
#include <cstddef>
#include <map>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "game/node.h"

namespace quoin::game {

/// A step on the way to a value: a key of a table, or a place in a list, counted from 0.
using PathStep = std::variant<std::string, std::size_t>;
/// The way to a value from the top of a TOML file: {"element", 3, "at", 0}.
using ValuePath = std::vector<PathStep>;

/// Writes a value at a path of a TOML file. Where the key is not there yet it is added, with the
/// tables on the way; in a list the place one past the end adds an item. Origins in `value` are
/// not looked at.
struct SetValue {
  std::string file;
  ValuePath path;
  std::optional<Node> value;  ///< nothing: the key, the table or the item is taken away
  std::string written = {};   ///< as it shall stand in the file, when it reads as `value`
};

enum class ListOp { add, copy, remove, move };

/// Changes the order or number of the items of a list in a TOML file, `[[element]]` blocks or items
/// in brackets. `path` ends with the place of an item.
struct EditElement {
  std::string file;
  ListOp op = ListOp::add;  ///< all but copy
  ValuePath path;           ///< add: where the new item shall stand, the size of the list for last
  std::size_t to = 0;       ///< move: where it stands afterwards
  std::optional<Node> value = {};  ///< add: the new item
  std::string written = {};        ///< add: its block as it shall stand, when it reads as `value`
};

/// Writes the text of one cell of a card list. `row` counts the cards from 0; the row is the one
/// that has `id`, at `row` or elsewhere when it has moved. With an empty id `row` alone tells.
struct SetCell {
  std::string file;
  std::size_t row = 0;
  std::string id;
  std::string column;
  std::string text;
  /// As it shall stand in the file, when it reads as `text`.
  std::optional<std::string> written = {};
};

/// Adds, copies, removes or moves a row.
struct EditRow {
  std::string file;
  ListOp op = ListOp::add;
  std::size_t row = 0;                 ///< copy, remove, move: the row meant
  std::string id = {};                 ///< its id, as in SetCell
  std::optional<std::size_t> to = {};  ///< where it stands afterwards; add: last, copy: below
  std::map<std::string, std::string> values = {};  ///< add, copy: cells by their columns
  std::string written = {};  ///< add: the line as it shall stand, when it reads as `values`
};

enum class ColumnOp { add, remove, rename };

/// Adds a column of empty cells, removes one, or gives one another name.
struct EditColumn {
  std::string file;
  ColumnOp op = ColumnOp::add;
  std::string column;
  std::string to = {};                    ///< rename: the new name
  std::optional<std::size_t> place = {};  ///< add: where it stands, counted from 0; last
  /// add: its cells, one for each row, as they shall stand in the file; empty cells else.
  std::vector<std::string> written = {};
};

/// Writes a plain text: the rules. As the desk asks for it, `text` is all of it; in a claim it
/// takes the place of one passage, so that what another program wrote elsewhere in the file stays.
struct EditText {
  std::string file;
  std::string text;
  struct Passage {
    std::size_t at = 0;         ///< byte of the text that the maker saw
    std::string was;            ///< what stood there
    std::string before, after;  ///< what stood round it, a line or two
  };
  std::optional<Passage> passage = {};
};

/// One change of one file, as the desk asks for it.
using Change = std::variant<SetValue, EditElement, SetCell, EditRow, EditColumn, EditText>;

[[nodiscard]] const std::string& file_of(const Change& change);

}  // namespace quoin::game
