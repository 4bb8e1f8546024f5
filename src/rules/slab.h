#pragma once
#include <map>
#include <memory>
#include <vector>

#include "rules/look.h"
#include "rules/manuscript.h"
#include "scene/setting.h"

namespace quoin::rules {

enum class SlabKind { heading, line, rule, table_head, table_row, picture, cards };

/// Something that no end of a column may divide: a line of text, a row of a table, a picture. Its
/// frame has the column's left edge at x = 0 and its own top at y = 0.
struct Slab {
  SlabKind kind = SlabKind::line;
  Mm height;
  Mm gap;  ///< above it; none at the top of a column
  std::vector<Item> items;
  /// Must the next slab stand in the same column? So that a heading stays with what follows, and
  /// neither the first nor the last line of a paragraph stands alone.
  bool keeps_next = false;
  /// Stands above this one again at the top of a column: the head of its table.
  std::shared_ptr<const Slab> repeated;
  Origin origin;
};

/// Where text is set.
struct Column {
  Mm width, height;
  Mm type;  ///< type size of the text
};

/// The faces of the cards that the rules show, each as one item in the frame of its trim, cut at
/// its round corners; texts set.
using CardArt = std::map<int, Item>;
[[nodiscard]] CardArt card_art(const pieces::Studio& studio, Typesetter& typesetter,
                               const Manuscript& manuscript);

/// What the setting of a text is made from.
struct SettingWork {
  const game::Game& game;
  const Manuscript& manuscript;
  const Look& look;
  const CardArt& cards;
  Typesetter& typesetter;
};

/// The text as slabs for columns of that size, none higher than the column. Each stands for a line
/// of the text: orphans and widows are kept together by `keeps_next`.
///
/// Finds `rules.table-too-wide`, `art.low-resolution` and what the typesetter met
/// (`text.missing-family`, `text.missing-face`, `text.missing-glyph`, `text.other-font`,
/// `text.broke-inside-word`).
[[nodiscard]] Checked<std::vector<Slab>> slabs_of(const SettingWork& work, const Column& column);

/// A column that was filled: items from its top left corner.
struct Filled {
  std::vector<Item> items;
  Mm used;
};

/// Lets slabs run over columns, one after another: nothing leaves a column unless it is higher than
/// one, and slabs that keep their next are not parted unless together they are.
[[nodiscard]] std::vector<Filled> fill_columns(const std::vector<Slab>& slabs, Mm height);

/// How many columns they take.
[[nodiscard]] int columns_for(const std::vector<Slab>& slabs, Mm height);

}  // namespace quoin::rules
