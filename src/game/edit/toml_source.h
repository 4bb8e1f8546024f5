#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "game/edit/change.h"
#include "game/edit/text_splice.h"

namespace quoin::game {

struct WrittenEntry;

/// A value as it stands in a text.
struct Written {
  enum class Kind { plain, list, table };
  Kind kind = Kind::plain;
  Stretch at;                         ///< with its quotes or brackets
  std::vector<Written> items;         ///< of a list
  std::vector<WrittenEntry> entries;  ///< of a table in braces
};

/// `key = value` in braces.
struct WrittenEntry {
  std::vector<std::string> key;  ///< the parts of a dotted key
  Stretch at;                    ///< from the key to the end of the value
  Written value;
};

/// A heading, or a key with its value, on lines of its own.
struct Statement {
  enum class Kind { heading, list_heading, entry };
  Kind kind = Kind::entry;
  Stretch lines;   ///< whole lines, with the last one's end and remark
  Stretch key_at;  ///< the key, or the heading with its brackets
  std::size_t key_parts = 0;
  ValuePath path;  ///< from the top of the file; for [[name]] with the item's place
  Written value;   ///< of an entry
};

/// A TOML text with the place of everything in it. The text must be one that read_toml can read;
/// of any other what could be made out is there and `is_sound` is false.
class TomlSource {
 public:
  /// `text` must live as long as this.
  explicit TomlSource(std::string_view text);

  [[nodiscard]] std::string_view text() const { return text_; }
  [[nodiscard]] const std::vector<Statement>& statements() const { return statements_; }
  [[nodiscard]] bool is_sound() const { return is_sound_; }

 private:
  std::string_view text_;
  std::vector<Statement> statements_;
  bool is_sound_ = true;
};

[[nodiscard]] bool begins_with(const ValuePath& path, const ValuePath& start);

/// A value with what holds it.
struct FoundValue {
  const Statement* statement = nullptr;
  const Written* value = nullptr;
  const Written* holder = nullptr;  ///< the list or table in which it is an item; null: a statement
  std::size_t position = 0;         ///< in the holder
};

/// The value written at a path; nothing when none is, or when it is a table made by headings or
/// dotted keys.
[[nodiscard]] std::optional<FoundValue> find_value(const TomlSource& source, const ValuePath& path);

/// The statements at or below a path, in the order of the file.
[[nodiscard]] std::vector<const Statement*> statements_under(const TomlSource& source,
                                                             const ValuePath& path);

}  // namespace quoin::game
