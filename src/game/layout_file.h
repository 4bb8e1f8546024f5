#pragma once
#include <string>
#include <vector>

#include "base/result.h"
#include "game/game.h"

namespace quoin::game {

/// One layout file by itself: what it uses and its own elements, before those of used files come
/// beneath them.
struct LayoutFile {
  FileName file;
  std::vector<Text> uses;  ///< as written, seen from the file's folder
  std::vector<Element> elements;
  std::vector<Text> child_lists;  ///< ids of groups that give their elements anew
};

/// Reads the structure of a layout: `use`, elements and groups. An element without an id, and the
/// second of two with one id, are left out. Properties are not looked at yet, since an element
/// that changes one of a used file gets its kind from there.
///
/// Finds `game.missing-key`, `game.wrong-type`, `game.unknown-key`, `game.unknown-word`,
/// `game.id-spelling` and `game.id-twice`.
[[nodiscard]] Checked<LayoutFile> layout_from(const Table& toml, FileName file);

/// Lays the elements of a file over those of the files it uses: an element whose id is already
/// there replaces the keys it gives, keeps the others and keeps its place; all others come on top.
///
/// Finds `game.kind-changed`.
void lay_over(std::vector<Element>& beneath, const LayoutFile& above, Diagnostics& found);

/// Checks the properties of elements that were laid over each other, groups within groups
/// included: all that `check_table` finds, `game.missing-key` for a kind that no file gives, and
/// `game.keys-conflict`.
[[nodiscard]] Diagnostics check_elements(const std::vector<Element>& elements,
                                         const struct KnownNames& names);

}  // namespace quoin::game
