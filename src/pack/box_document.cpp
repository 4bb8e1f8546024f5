#include "pack/box_document.h"

#include <fmt/format.h>

#include <algorithm>

namespace quoin::pack {

Document box_document(const game::Game& game) {
  Document document;
  document.title = game.title;
  document.author = game.author;
  document.subject = "Box";
  document.language = game.language;
  document.creator = "Quoin";
  return document;
}

bool has_art(const BoxArt& art, std::size_t net, NetSide side) {
  if (net >= art.size()) return false;
  return !(side == NetSide::printed ? art[net].printed : art[net].inside).items.empty();
}

void place_art(Page& page, const BoxNet& net, std::size_t index, const BoxArt& art, NetSide side,
               const Affine& map) {
  if (!has_art(art, index, side)) return;
  Rect frame = grown(net.bounds, bleed_of(art, index));
  if (side == NetSide::inside) frame.at.x = -frame.right();
  const auto window = overlap(bounds(map, frame), Rect{{}, page.media});
  if (!window) return;
  const int symbol = static_cast<int>(index) * 2 + (side == NetSide::inside ? 1 : 0);
  page.placements.push_back({symbol, map, *window});
}

void add_mapped(Page& page, std::vector<Item> items, const Affine& map) {
  for (Item& item : items) {
    item.map = then(item.map, map);
    page.own.items.push_back(std::move(item));
  }
}

std::string titles_of(const std::vector<BoxNet>& nets, const std::vector<NetPlace>& places) {
  std::vector<std::string> titles;
  for (const NetPlace& place : places) {
    const std::string& title = nets.at(static_cast<std::size_t>(place.net)).title;
    if (std::find(titles.begin(), titles.end(), title) == titles.end()) titles.push_back(title);
  }
  std::string words;
  for (std::size_t i = 0; i < titles.size(); ++i) {
    if (i > 0) words += i + 1 == titles.size() ? " and " : ", ";
    words += titles[i];
  }
  return words;
}

std::string board_words(const pieces::Box& box) {
  return fmt::format("{:.2f} mm", box.plan.board.value);
}

}  // namespace quoin::pack
