#include <algorithm>
#include <optional>
#include <stdexcept>

#include "pieces/card/inspect.h"
#include "pieces/card/inspect_grounds.h"
#include "pieces/card/inspect_leaves.h"

namespace quoin::pieces {
namespace {

/// A drawing board of the face's size whose frame is the trim's.
class Board {
 public:
  Board(const Face& face, PictureShelf& shelf)
      : bleed_(face.format.bleed),
        per_mm_(face.pixels_per_mm),
        canvas_(shelf, grown(Rect{{}, face.format.size}, face.format.bleed).size,
                face.pixels_per_mm * mm_per_inch, ImageCanvas::Background::paper) {
    canvas_.canvas().transform(Affine::move({face.format.bleed, face.format.bleed}));
  }
  [[nodiscard]] Canvas& canvas() { return canvas_.canvas(); }
  [[nodiscard]] Raster raster() const { return canvas_.raster(); }
  [[nodiscard]] const Diagnostics& found() const { return canvas_.found(); }
  [[nodiscard]] Pixels pixels(const Raster& raster) const { return {raster, bleed_, per_mm_}; }

 private:
  Mm bleed_;
  double per_mm_;
  ImageCanvas canvas_;
};

void expect_set(const std::vector<Leaf>& leaves) {
  for (const Leaf& leaf : leaves) {
    if (leaf.text() != nullptr && leaf.text()->set.state() == nullptr) {
      throw std::logic_error("a text of a face is inspected before it is set");
    }
  }
}

/// Reads the face off the board before each leaf that needs it. A new picture is taken only when
/// something was drawn beneath the leaf since the last one: leaves that lie side by side share it.
class Grounds {
 public:
  void before(std::size_t place, const Leaf& leaf, Rect ink, const Board& board) {
    const bool stale = std::any_of(drawn_since_.begin(), drawn_since_.end(),
                                   [&](Rect drawn) { return overlap(drawn, ink).has_value(); });
    if (!latest_ || stale) {
      latest_.reset();  // first: one picture of memory, not two
      latest_ = board.raster();
      drawn_since_.clear();
    }
    taken_.push_back({place, stretches_beneath(leaf, board.pixels(*latest_))});
  }
  void drawn(Rect ink) { drawn_since_.push_back(ink); }
  [[nodiscard]] const std::vector<Ground>& taken() const { return taken_; }

 private:
  std::optional<Raster> latest_;
  std::vector<Rect> drawn_since_;
  std::vector<Ground> taken_;
};

/// Draws a scene leaf by leaf, keeping grounds on the way.
class LeafByLeaf {
 public:
  LeafByLeaf(const std::vector<Leaf>& leaves, Board& board) : leaves_(leaves), board_(board) {}

  void draw_items(const std::vector<Item>& items) {
    for (const Item& item : items) {
      const GroupItem* group = std::get_if<GroupItem>(&item.what);
      if (group == nullptr)
        draw_leaf();
      else
        draw_group(item, *group);
    }
  }
  [[nodiscard]] const std::vector<Ground>& grounds() const { return grounds_.taken(); }
  /// False when a group was taken apart that is more than its parts: with a shadow, an outline or
  /// an opacity of its own. Its parts are then each as faint as the group, without the rest.
  [[nodiscard]] bool is_exact() const { return exact_; }

 private:
  void draw_leaf() {
    const std::size_t place = next_++;
    const Leaf& leaf = leaves_[place];
    const std::optional<Rect> seen = visible_ink(leaf);
    if (!seen) return;
    if (needs_ground(leaf)) grounds_.before(place, leaf, *seen, board_);
    const double faintness = leaf.item->opacity > 0 ? leaf.opacity / leaf.item->opacity : 0;
    if (faintness < 1) board_.canvas().begin_group();
    draw(*leaf.item, board_.canvas());
    if (faintness < 1) board_.canvas().end_group(faintness);
    grounds_.drawn(*seen);
  }

  void draw_group(const Item& item, const GroupItem& group) {
    const bool more_than_its_parts = item.opacity < 1 || item.shadow || item.outline;
    const std::size_t end = next_ + leaf_count(group);
    const auto leaf = [&](std::size_t i) {
      return leaves_.begin() + static_cast<std::ptrdiff_t>(i);
    };
    if (more_than_its_parts && std::none_of(leaf(next_), leaf(end), needs_ground)) {
      draw_whole(item, end);
      return;
    }
    exact_ = exact_ && !more_than_its_parts;
    board_.canvas().save();
    board_.canvas().transform(item.map);
    if (item.clip) board_.canvas().clip(*item.clip);
    draw_items(group.items);
    board_.canvas().restore();
  }

  void draw_whole(const Item& item, std::size_t end) {
    if (next_ == end) return;
    draw(item, board_.canvas());
    // The frame in which the group is drawn: that of its first leaf, less the groups from here on.
    Affine outer;
    for (const Item* group : leaves_[next_].groups) {
      if (group == &item) break;
      outer = then(group->map, outer);
    }
    if (const std::optional<Rect> seen = ink(item)) grounds_.drawn(bounds(outer, *seen));
    next_ = end;
  }

  [[nodiscard]] static std::size_t leaf_count(const GroupItem& group) {
    std::size_t count = 0;
    for (const Item& item : group.items) {
      const GroupItem* inner = std::get_if<GroupItem>(&item.what);
      count += inner != nullptr ? leaf_count(*inner) : 1;
    }
    return count;
  }

  const std::vector<Leaf>& leaves_;
  Board& board_;
  Grounds grounds_;
  std::size_t next_ = 0;
  bool exact_ = true;
};

}  // namespace

FaceLook look_at(const Face& face, PictureShelf& shelf) {
  const std::vector<Leaf> leaves = leaves_of(face.scene);
  expect_set(leaves);
  Board board(face, shelf);
  LeafByLeaf drawing(leaves, board);
  drawing.draw_items(face.scene.items);
  FaceLook look{face.format.size,  face.format.bleed, {},
                drawing.grounds(), board.found(),     face.pixels_per_mm};
  if (drawing.is_exact()) {
    look.picture = board.raster();
    return look;
  }
  Board whole(face, shelf);
  draw(face.scene, whole.canvas());
  look.picture = whole.raster();
  return look;
}

}  // namespace quoin::pieces
