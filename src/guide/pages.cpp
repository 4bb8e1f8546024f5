#include "guide/pages.h"

namespace quoin::guide {
namespace {

/// Fills pages from the top down.
class Filling {
 public:
  explicit Filling(const Look& look) : look_(look) {}

  [[nodiscard]] Laid take() { return std::move(laid_); }

  void begin_chapter(Chapter::Opening opening) {
    const Mm left = look_.column.size.height - down_;
    const bool is_short = left < look_.column.size.height * 0.3;
    if (laid_.pages.empty() || (at_ > 0 && (opening == Chapter::Opening::new_page || is_short))) {
      next_page();
    }
    laid_.begins.push_back(static_cast<int>(laid_.pages.size()) - 1);
  }

  /// Whether an empty page has room for them.
  [[nodiscard]] bool fit_on_a_page(const Slab* first, const Slab* last) const {
    Mm all = first->repeated ? first->repeated->height : Mm{};
    for (const Slab* slab = first; slab != last; ++slab) {
      all = all + slab->height + (slab == first ? Mm{} : slab->gap);
    }
    return fits(all, look_.column.size.height);
  }

  /// Slabs that belong on one page.
  void add(const Slab* first, const Slab* last) {
    if (height(first, last) > look_.column.size.height - down_ && at_ > 0) next_page();
    for (const Slab* slab = first; slab != last; ++slab) {
      // More hangs together than one page holds.
      if (height(slab, slab + 1) > look_.column.size.height - down_ && at_ > 0) next_page();
      if (at_ == 0 && slab->repeated) stand(*slab->repeated);
      stand(*slab);
    }
  }

 private:
  /// Of slabs that go on from here.
  [[nodiscard]] Mm height(const Slab* first, const Slab* last) const {
    Mm all;
    for (const Slab* slab = first; slab != last; ++slab) {
      const bool at_top = slab == first && at_ == 0;
      if (at_top && slab->repeated) all = all + slab->repeated->height;
      all = all + slab->height + (at_top ? Mm{} : slab->gap);
    }
    return all;
  }

  void next_page() {
    laid_.pages.emplace_back();
    down_ = Mm{};
    at_ = 0;
  }

  void stand(const Slab& slab) {
    if (at_++ > 0) down_ = down_ + slab.gap;
    const Vec to = Vec{look_.column.left(), look_.column.top() + down_};
    LaidPage& page = laid_.pages.back();
    for (const Item& item : slab.items) page.items.push_back(moved(item, to));
    for (Placement placement : slab.placed) {
      placement.map = then(placement.map, Affine::move(to));
      placement.window.at = placement.window.at + to;
      page.placed.push_back(placement);
    }
    page.slabs.push_back({slab.kind,
                          {Point{} + to, {look_.column.size.width, slab.height}},
                          static_cast<int>(laid_.begins.size()) - 1});
    down_ = down_ + slab.height;
  }

  const Look& look_;
  Laid laid_;
  Mm down_;     // what the page has already
  int at_ = 0;  // slabs on the page
};

/// Behind the last of the slabs that hang together, by links of that strength or more.
const Slab* hanging_together(const Slab* first, const Slab* end, Slab::Next least) {
  while (first->next >= least && first + 1 != end) ++first;
  return first + 1;
}

}  // namespace

Laid run_over_pages(const std::vector<ChapterSlabs>& chapters, const Look& look) {
  Filling filling(look);
  for (const ChapterSlabs& chapter : chapters) {
    filling.begin_chapter(chapter.opening);
    const Slab* const end = chapter.slabs.data() + chapter.slabs.size();
    for (const Slab* first = chapter.slabs.data(); first != end;) {
      const Slab* last = hanging_together(first, end, Slab::Next::rather_same_page);
      if (!filling.fit_on_a_page(first, last)) {
        last = hanging_together(first, end, Slab::Next::same_page);
      }
      filling.add(first, last);
      first = last;
    }
  }
  return filling.take();
}

}  // namespace quoin::guide
