#include "making/drawing.h"
#include "making/likely_cuts.h"

namespace quoin::making {
namespace {

constexpr double enlarged = 5;
constexpr Colour cloud_red{0.78, 0.12, 0.1, 0.3}, cloud_dark{0.12, 0.16, 0.2, 1};
constexpr Colour safe_green{0.15, 0.5, 0.35, 1}, bleed_blue{0.15, 0.35, 0.65, 1};

Item dashed(Path path, Colour colour, Mm width) {
  Item item = stroked(std::move(path), colour, width);
  std::get<ShapeItem>(item.what).stroke.dash = {Mm{1}, Mm{0.8}};
  return item;
}

/// The card in its own frame: art, bleed, safe area, cuts.
std::vector<Item> drawn_card(const FaceTolerance& face, const press::ErrorBudget& errors,
                             const Scene& art, std::uint64_t seed) {
  constexpr Mm most_bleed{6};
  const Rect trim{{}, face.margins.trim};
  const Mm bleed = std::min(face.margins.bleed, most_bleed);
  Item whole;
  whole.clip = Path::rectangle(grown(trim, bleed));
  whole.what = GroupItem{art.items};
  std::vector<Item> items{std::move(whole)};
  items.push_back(dashed(Path::rectangle(grown(trim, bleed)), bleed_blue, Mm{0.12}));
  const Mm safe = std::min(face.margins.safe, std::min(trim.size.width, trim.size.height) / 3);
  items.push_back(dashed(Path::rectangle(grown(trim, -safe)), safe_green, Mm{0.12}));
  for (const FallenCut& cut : fallen_cuts(face, errors, usual_fallen_cuts, seed)) {
    items.push_back(stroked(Path::polygon({cut.begin(), cut.end()}), cloud_red, Mm{0.07}));
  }
  items.push_back(stroked(Path::rectangle(trim), cloud_dark, Mm{0.1}));
  return items;
}

Item placed(std::vector<Item> items, const Affine& map, Rect window) {
  Item inner;
  inner.map = map;
  inner.what = GroupItem{std::move(items)};
  Item outer;
  outer.clip = Path::rectangle(window);
  outer.what = GroupItem{{std::move(inner)}};
  return outer;
}

}  // namespace

Scene cut_cloud(const FaceTolerance& face, const press::ErrorBudget& errors, const Scene& art,
                Size room, std::uint64_t seed) {
  constexpr Mm around{6}, foot{5}, gap{4};
  const std::vector<Item> card = drawn_card(face, errors, art, seed);
  const Rect whole = grown(Rect{{}, face.margins.trim}, around);
  const Rect left{{}, {room.width / 2 - gap / 2, room.height - foot}};
  const Rect right{{room.width / 2 + gap / 2, Mm{0}}, left.size};
  const double scale =
      std::min(left.size.width / whole.size.width, left.size.height / whole.size.height);
  const Vec about{left.centre().x - whole.centre().x * scale,
                  left.centre().y - whole.centre().y * scale};
  Scene scene;
  scene.items.push_back(placed(card, then(Affine::scale(scale, scale), Affine::move(about)), left));
  // The corner: 4 mm of paper outside of it are seen.
  const Vec corner{right.left() + Mm{4} * enlarged, right.top() + Mm{4} * enlarged};
  scene.items.push_back(
      placed(card, then(Affine::scale(enlarged, enlarged), Affine::move(corner)), right));
  scene.items.push_back(stroked(Path::rectangle(right), cloud_dark, Mm{0.2}));
  const Mm line = room.height - foot / 2;
  scene.items.push_back(
      words("40 cards as they will be cut", {left.centre().x, line}, {Mm{2.4}, 0, cloud_dark}));
  scene.items.push_back(
      words("the corner, 5 times as large", {right.centre().x, line}, {Mm{2.4}, 0, cloud_dark}));
  return scene;
}

}  // namespace quoin::making
