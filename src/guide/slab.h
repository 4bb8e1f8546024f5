#pragma once
#include <memory>
#include <vector>

#include "guide/guide.h"
#include "guide/look.h"
#include "scene/setting.h"
#include "scene/shapes.h"

namespace quoin::guide {

/// What a slab is, for whoever looks at the pages.
enum class SlabKind {
  chapter,
  heading,
  words,
  tick,
  caution,
  steps,
  table_head,
  table_row,
  picture
};

/// Something that no page end may divide: a line to tick, a row of steps with their pictures, four
/// lines of a paragraph. Its frame has the column's left edge at x = 0 and its own top at y = 0.
struct Slab {
  SlabKind kind = SlabKind::words;
  Mm height;  ///< on the grid
  Mm gap;     ///< above it, on the grid; none at the top of a page
  std::vector<Item> items;
  std::vector<Placement> placed;
  /// Must the next slab stand on the same page? `rather_same_page`: when a page has room for all
  /// that hangs together so.
  enum class Next { anywhere, rather_same_page, same_page } next = Next::anywhere;
  /// Stands above this one again when it is the first of a page: the head of its table.
  std::shared_ptr<const Slab> repeated;
};

/// Adds to the slab: an item at a place of its frame.
void put(Slab& slab, Item item, Vec at);

/// Puts a figure with its top left corner at a place, so many times its size.
void put(Slab& slab, const Figure& figure, Vec at, double scale);

/// How large a figure is drawn in that room, as it says itself.
[[nodiscard]] double scale_in(const Figure& figure, Size room);

/// The blocks of a chapter under its title as slabs. `number` stands before the title.
[[nodiscard]] std::vector<Slab> slabs_of(const Chapter& chapter, int number, const Look& look,
                                         Setting& setting);

/// The slabs of one kind of block each; for `slabs_of`.
[[nodiscard]] std::vector<Slab> step_slabs(const Steps& steps, const Look& look, Setting& setting);
[[nodiscard]] std::vector<Slab> table_slabs(const Table& table, const Look& look, Setting& setting);
[[nodiscard]] std::vector<Slab> caution_slabs(const Caution& caution, const Look& look,
                                              Setting& setting);

/// An empty box to tick, about a place.
[[nodiscard]] Item tick_box(Point middle);
inline constexpr Mm tick_size{3.4};

}  // namespace quoin::guide
