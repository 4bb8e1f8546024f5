#pragma once
#include <string>
#include <vector>

#include "base/result.h"
#include "game/edit/change.h"
#include "game/edit/toml_source.h"
#include "game/node.h"

namespace quoin::game {

/// A TOML text that could be read: what it says, and where each part of it stands.
struct TomlText {
  const Bytes& text;
  FileName file;
  TomlSource source;
  Node top;  ///< a table
};

/// Fails with what read_toml finds. `text` must live as long as the answer.
[[nodiscard]] Result<TomlText> toml_text_of(const Bytes& text, FileName file);

/// A text in which the change at exactly this path was made, and what it says.
struct ChangedToml {
  Bytes text;
  Node top;
};

/// See game::edit; places in lists are those of this text.
[[nodiscard]] Result<ChangedToml> change_toml(const TomlText& old, const SetValue& change);
[[nodiscard]] Result<ChangedToml> change_toml(const TomlText& old, const EditElement& change);

/// The value at a path as it stands in the text: for a block its lines, for what is made by
/// several headings "".
[[nodiscard]] std::string written_at(const TomlText& text, const ValuePath& path);

/// Where it stands; the file as a whole when it stands nowhere by itself.
[[nodiscard]] Origin place_of(const TomlText& text, const ValuePath& path);

/// "element 4, at 1": for messages, places counted from 1.
[[nodiscard]] std::string words_of(const ValuePath& path);

}  // namespace quoin::game
