#include "pack/mat_files.h"
#include "pack/net_lines.h"

namespace quoin::pack {
namespace {

constexpr Mm mark_gap{1}, mark_length{5}, edge_of_page{3}, slug_line{6}, slug_type{3.2};

/// Two short lines at each corner of the cut, outside the bleed.
std::vector<Item> corner_marks(Rect cut, Mm bleed) {
  std::vector<Item> items;
  const LineLook look{Layer::mark, black, Mm{0.15}, {}};
  const Mm near = bleed + mark_gap, far = near + mark_length;
  for (const Mm y : {cut.top(), cut.bottom()}) {
    items.push_back(line_item(between({cut.left() - far, y}, {cut.left() - near, y}), look));
    items.push_back(line_item(between({cut.right() + near, y}, {cut.right() + far, y}), look));
  }
  for (const Mm x : {cut.left(), cut.right()}) {
    items.push_back(line_item(between({x, cut.top() - far}, {x, cut.top() - near}), look));
    items.push_back(line_item(between({x, cut.bottom() + near}, {x, cut.bottom() + far}), look));
  }
  return items;
}

}  // namespace

Document shop_mat(const game::Game& game, const pieces::Mat& mat) {
  Document document;
  document.title = game.title;
  document.author = game.author;
  document.subject = "Mat";
  document.language = game.language;
  document.creator = "Quoin";
  document.line_work = LineWork::spot_colours;
  const ShopMat shop = shop_mat_sizes(game, mat);
  const std::vector<std::string> words = shop_mat_words(game, mat);
  const Mm rim = mat.plan.bleed + mark_gap + mark_length + edge_of_page;
  Page page;
  page.label = "mat";
  page.media = grown(Rect{{}, shop.cut}, rim).size;
  page.media.height += slug_line * static_cast<double>(words.size());
  page.trim = {{rim, rim}, shop.cut};
  page.bleed = grown(page.trim, mat.plan.bleed);
  const Mm inset = rim + mat.plan.hem;
  const Affine map = then(Affine::scale(shop.across, shop.down), Affine::move(Vec{inset, inset}));
  page.placements.push_back({0, map, page.bleed});
  for (Item& mark : corner_marks(page.trim, mat.plan.bleed)) {
    page.own.items.push_back(std::move(mark));
  }
  if (mat.plan.hem > Mm{}) {
    page.own.items.push_back(line_item(Path::rectangle({{inset, inset}, shop.finished}),
                                       {Layer::crease, crease_ink, Mm{0.3}, {Mm{4}, Mm{2}}}));
  }
  Mm y = page.bleed.bottom() + mark_gap + mark_length + slug_line / 2;
  for (const std::string& line : words) {
    WordsLook look;
    look.type_size = slug_type;
    page.own.items.push_back(words_item(line, {page.media.width / 2, y},
                                        {page.media.width - edge_of_page * 2, slug_line}, look));
    y += slug_line;
  }
  document.pages.push_back(std::move(page));
  return document;
}

}  // namespace quoin::pack
