#include <algorithm>
#include <optional>
#include <stdexcept>

#include "pieces/card/inspect.h"
#include "pieces/card/inspect_leaves.h"

namespace quoin::pieces {
namespace {

/// Lines wider than this are never too thin, whatever the limits: their grounds are not kept.
constexpr Mm fine_line{0.6};

/// A drawing board of the face's size whose frame is the trim's.
class Board {
 public:
  Board(const Face& face, PictureShelf& shelf)
      : canvas_(shelf, grown(Rect{{}, face.format.size}, face.format.bleed).size,
                look_pixels_per_mm * mm_per_inch, ImageCanvas::Background::paper) {
    canvas_.canvas().transform(Affine::move({face.format.bleed, face.format.bleed}));
  }
  [[nodiscard]] Canvas& canvas() { return canvas_.canvas(); }
  [[nodiscard]] Raster raster() const { return canvas_.raster(); }

 private:
  ImageCanvas canvas_;
};

/// True when the group is more than its parts drawn one after the other.
bool is_more_than_its_parts(const Item& group) {
  return group.opacity < 1 || group.shadow || group.outline;
}

/// Draws a leaf as its groups place it; what a group adds of its own (shadow, outline) is left
/// out, and its opacity is given to each part.
void draw_leaf(const Leaf& leaf, Canvas& canvas) {
  canvas.save();
  for (const Item* group : leaf.groups) {
    canvas.transform(group->map);
    if (group->clip) canvas.clip(*group->clip);
  }
  const double of_groups = leaf.item->opacity > 0 ? leaf.opacity / leaf.item->opacity : 0;
  if (of_groups < 1) canvas.begin_group();
  draw(*leaf.item, canvas);
  if (of_groups < 1) canvas.end_group(of_groups);
  canvas.restore();
}

bool needs_ground(const Leaf& leaf) {
  if (leaf.text() != nullptr) return true;
  const ShapeItem* shape = leaf.shape();
  if (shape == nullptr) return false;
  if (shape->stroke.width > Mm{0} && shape->stroke.width < fine_line) return true;
  const Size box = bounds(shape->path).size;
  return std::min(box.width, box.height) < fine_line;
}

void expect_set(const std::vector<Leaf>& leaves) {
  for (const Leaf& leaf : leaves) {
    if (leaf.text() != nullptr && leaf.text()->set.state() == nullptr) {
      throw std::logic_error("a text of a face is inspected before it is set");
    }
  }
}

/// Keeps the face as it was before each leaf that needs it. A new picture is taken only when
/// something was drawn beneath the leaf since the last one.
class Grounds {
 public:
  void before(std::size_t leaf, Rect ink, const Board& board) {
    const bool stale = std::any_of(drawn_since_.begin(), drawn_since_.end(),
                                   [&](Rect drawn) { return overlap(drawn, ink).has_value(); });
    if (!latest_ || stale) {
      latest_ = std::make_shared<const Raster>(board.raster());
      drawn_since_.clear();
    }
    grounds_.push_back({leaf, latest_});
  }
  void drawn(Rect ink) { drawn_since_.push_back(ink); }
  [[nodiscard]] std::vector<Ground> take() && { return std::move(grounds_); }

 private:
  std::shared_ptr<const Raster> latest_;
  std::vector<Rect> drawn_since_;
  std::vector<Ground> grounds_;
};

}  // namespace

FaceLook look_at(const Face& face, PictureShelf& shelf) {
  FaceLook look{face.format.size, face.format.bleed, {}, {}};
  Board board(face, shelf);
  Grounds grounds;
  const std::vector<Leaf> leaves = leaves_of(face.scene);
  expect_set(leaves);
  for (std::size_t i = 0; i < leaves.size(); ++i) {
    const std::optional<Rect> ink = visible_ink(leaves[i]);
    if (!ink) continue;
    if (needs_ground(leaves[i])) grounds.before(i, *ink, board);
    draw_leaf(leaves[i], board.canvas());
    grounds.drawn(*ink);
  }
  look.grounds = std::move(grounds).take();
  const bool leaves_suffice = std::none_of(leaves.begin(), leaves.end(), [](const Leaf& leaf) {
    return std::any_of(leaf.groups.begin(), leaf.groups.end(),
                       [](const Item* group) { return is_more_than_its_parts(*group); });
  });
  if (leaves_suffice) {
    look.picture = board.raster();
    return look;
  }
  Board whole(face, shelf);
  draw(face.scene, whole.canvas());
  look.picture = whole.raster();
  return look;
}

}  // namespace quoin::pieces
