#include <algorithm>

#include "guide/figures/figures.h"
#include "pieces/box/box_view.h"

namespace quoin::guide {
namespace {

/// A card as it is held: cut, its corners round, on a hint of shadow.
Item held_card(const Scene& scene, Size trim, Mm corner) {
  const Rect whole{{}, trim};
  Item face;
  face.clip = Path::rounded_rectangle(whole, corner);
  GroupItem items{scene.items};
  items.items.insert(items.items.begin(), shape(Path::rectangle(whole), white));
  face.what = std::move(items);
  GroupItem card;
  for (const double off : {1.5, 1.0, 0.5}) {
    const Rect under{{Mm{-0.3}, Mm{off}}, {trim.width + Mm{0.6}, trim.height + Mm{0.3}}};
    card.items.push_back(
        shape(Path::rounded_rectangle(under, corner), Colour{0.05, 0.06, 0.1, 0.07}));
  }
  card.items.push_back(std::move(face));
  card.items.push_back(
      line(Path::rounded_rectangle(whole, corner), Colour{0.1, 0.1, 0.12, 0.35}, Mm{0.15}));
  Item item;
  item.what = std::move(card);
  return item;
}

/// Cards fanned out about a place below them, the last on top; and what they cover.
struct Fan {
  std::vector<Item> items;
  Rect bounds;
};

Fan fan(const Making& making) {
  const Size trim = making.game.card.size;
  const std::size_t count = making.faces.size();
  const double between = count > 1 ? std::min(12.0, 46.0 / static_cast<double>(count - 1)) : 0;
  Fan fan;
  for (std::size_t i = 0; i < count; ++i) {
    // The back lies at the bottom, on the left.
    const std::size_t face = making.last_face_is_back ? (i + count - 1) % count : i;
    const double turn = (static_cast<double>(i) - static_cast<double>(count - 1) / 2) * between;
    Item card = held_card(making.faces[face].scene, trim, making.game.card.corner);
    card.map = Affine::turn_about({trim.width / 2, trim.height * 1.7}, Angle::degrees(turn + 4));
    const Rect covers = bounds(card.map, grown(Rect{{}, trim}, Mm{2}));
    fan.bounds = i == 0 ? covers : covering(fan.bounds, covers);
    fan.items.push_back(std::move(card));
  }
  return fan;
}

Item grouped(std::vector<Item> items, Vec by) {
  Item item;
  item.map = Affine::move(by);
  item.what = GroupItem{std::move(items)};
  return item;
}

}  // namespace

Figure finished_pieces(const Making& making) {
  Fan cards = fan(making);
  Figure figure;
  Rect all = cards.bounds;
  if (making.box.box != nullptr) {
    const pieces::BoxLook look{*making.box.box, *making.box.art, making.box.top_card,
                               making.game.card.corner};
    pieces::BoxPicture box = pieces::drawn(pieces::closed_stage(*making.box.box), look);
    // Behind the fan, on its left, standing on one line with it.
    const Mm overlap = std::min(cards.bounds.size.width, box.bounds.size.width) * 0.42;
    const Vec by{cards.bounds.left() + overlap - box.bounds.right(),
                 cards.bounds.bottom() - Mm{4} - box.bounds.bottom()};
    all = covering(all, {box.bounds.at + by, box.bounds.size});
    figure.scene.items.push_back(grouped(std::move(box.scene.items), by));
  }
  figure.scene.items.push_back(grouped(std::move(cards.items), {}));
  const Vec home = Point{} - all.at;
  for (Item& item : figure.scene.items) item = moved(std::move(item), home);
  figure.size = all.size;
  figure.largest = 2;
  return figure;
}

}  // namespace quoin::guide
