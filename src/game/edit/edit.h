#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "base/result.h"
#include "base/world.h"
#include "game/edit/change.h"

namespace quoin::game {

/// What an item of a list was when it was seen, so that it is found again in a list that another
/// program changed meanwhile.
struct Sight {
  std::string name;      ///< the item's id, or "" when it has none of its own
  std::string content;   ///< a hash of the whole item
  std::size_t size = 0;  ///< of the list
  bool operator==(const Sight&) const = default;
};

/// A change together with what was there when the maker made it. All that is needed to make it in
/// a text that has changed since then, or to see that it cannot be made there.
struct Claim {
  Change change;
  /// For each place in a list on the way (for a row: for the row), in order.
  std::vector<Sight> sights = {};
  /// Of the item that stood above the place where one is put; nothing at the top.
  std::optional<Sight> above = {};
  /// What stood there, in a spelling that is the same for the same value; nothing: it was not
  /// there.
  std::optional<std::string> saw = {};
};

/// The change was made in a text.
struct Edited {
  Bytes text;
  Claim inverse;  ///< gives the earlier text, made in `text`
  Origin place;   ///< of what was changed, in `text`; without a line when nothing stands there
};

/// The value is neither what the maker saw nor what it shall become: somebody else changed it too.
struct Collision {
  std::string mine, theirs;  ///< as they stand in a file; "" for nothing there
  Origin place;              ///< of theirs
};

using EditAnswer = std::variant<Edited, Collision, Diagnostics>;

/// What to do when a value was changed by somebody else too.
enum class WhenChanged { ask, take_mine };

/// Writes down what `change` meets in `text`, the text the maker had in view.
///
/// Fails with what reading the file finds when it is no TOML or no list, `edit.place-gone` when the
/// way leads nowhere, `edit.unknown-column`.
[[nodiscard]] Result<Claim> claim(const Change& change, const Bytes& text);

/// Makes the change in `text`. Only the bytes of the value change: comments, order, spaces, line
/// ends, quotes and numbers elsewhere stay as they are. The new text is read again, and unless it
/// holds exactly the old values with this one changed the answer is `edit.not-proved`.
///
/// Values are written in the style of what they take the place of, new keys in that of their
/// neighbours. A key goes with its line and the remark on that line; a block of a list goes with
/// the remarks that stand directly above it.
///
/// Otherwise the diagnostics are: what reading the file finds, `edit.place-gone`,
/// `edit.not-possible` (a value where tables stand, a block whose parts are scattered),
/// `edit.not-writable`, `edit.id-taken`, `edit.unknown-column`, `edit.column-name`,
/// `edit.row-empty`.
[[nodiscard]] EditAnswer edit(const Claim& claim, const Bytes& text,
                              WhenChanged when_changed = WhenChanged::ask);

}  // namespace quoin::game
