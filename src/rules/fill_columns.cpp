#include "rules/slab.h"

namespace quoin::rules {
namespace {

/// Fills columns from the top down; with nobody to take the items it only counts.
class ColumnFilling {
 public:
  ColumnFilling(Mm height, std::vector<Filled>* into) : height_(height), into_(into) {}

  [[nodiscard]] int columns() const { return columns_; }

  /// Slabs that belong together.
  void add(const Slab* first, const Slab* last) {
    if (at_ > 0 && !goes_on(first, last)) next_column();
    for (const Slab* slab = first; slab != last; ++slab) {
      // More hangs together than one column holds.
      if (at_ > 0 && !goes_on(slab, slab + 1)) next_column();
      if (at_ == 0 && slab->repeated) stand(*slab->repeated);
      stand(*slab);
    }
  }

 private:
  [[nodiscard]] bool goes_on(const Slab* first, const Slab* last) const {
    Mm all;
    for (const Slab* slab = first; slab != last; ++slab) all += slab->gap + slab->height;
    return fits(down_ + all, height_);
  }

  void next_column() {
    down_ = Mm{};
    at_ = 0;
  }

  void stand(const Slab& slab) {
    if (at_ == 0) {
      ++columns_;
      if (into_ != nullptr) into_->emplace_back();
    } else {
      down_ += slab.gap;
    }
    ++at_;
    if (into_ != nullptr) {
      for (const Item& item : slab.items) {
        into_->back().items.push_back(moved(item, {Mm{}, down_}));
      }
    }
    down_ += slab.height;
    if (into_ != nullptr) into_->back().used = down_;
  }

  Mm height_;
  std::vector<Filled>* into_;
  Mm down_;     // what the column has already
  int at_ = 0;  // slabs in the column
  int columns_ = 0;
};

int run(const std::vector<Slab>& slabs, Mm height, std::vector<Filled>* into) {
  ColumnFilling filling(height, into);
  const Slab* const end = slabs.data() + slabs.size();
  for (const Slab* first = slabs.data(); first != end;) {
    const Slab* last = first;
    while (last->keeps_next && last + 1 != end) ++last;
    filling.add(first, last + 1);
    first = last + 1;
  }
  return filling.columns();
}

}  // namespace

std::vector<Filled> fill_columns(const std::vector<Slab>& slabs, Mm height) {
  std::vector<Filled> columns;
  run(slabs, height, &columns);
  return columns;
}

int columns_for(const std::vector<Slab>& slabs, Mm height) { return run(slabs, height, nullptr); }

}  // namespace quoin::rules
