#pragma once
#include <vector>

#include "guide/slab.h"

namespace quoin::guide {

/// Where a slab came to stand.
struct Standing {
  SlabKind kind = SlabKind::words;
  Rect box;  ///< on the page
  int chapter = 0;
};

/// A page, texts set.
struct LaidPage {
  std::vector<Item> items;
  std::vector<Placement> placed;
  std::vector<Standing> slabs;  ///< from the top down
};

struct Laid {
  std::vector<LaidPage> pages;
  std::vector<int> begins;  ///< the page, counted from 0, on which each chapter's title stands
};

/// Lets the slabs of chapters run over pages: nothing leaves the column, no slab is divided, a slab
/// stands on the page of the next where it says so (unless all that hangs together is higher than a
/// page), and a chapter that begins `here` begins a page when less than three tenths of one are
/// left.
struct ChapterSlabs {
  std::vector<Slab> slabs;  ///< each no higher than the column, with the head it repeats
  Chapter::Opening opening = Chapter::Opening::new_page;
};
[[nodiscard]] Laid run_over_pages(const std::vector<ChapterSlabs>& chapters, const Look& look);

}  // namespace quoin::guide
