#include <fmt/format.h>

#include "pack/box_document.h"
#include "pack/dimensions.h"
#include "pack/net_lines.h"
#include "pieces/box/check_box.h"

namespace quoin::pack {
namespace {

constexpr Mm page_margin{5}, slug_height{4}, least_width{110};

/// The lines at the foot of a net's page: what it is, and what whoever makes it wants to know.
std::vector<std::string> slug_of(const game::Game& game, const pieces::Box& box,
                                 const BoxNet& net) {
  const Mm board = box.plan.board;
  const std::string which = net.name == "box" ? std::string() : ", " + net.title;
  return {fmt::format("{}: {}{}, outside {:.1f} x {:.1f} x {:.1f} mm", game.title, box.kind->title,
                      which, box.fit.outside.width.value, box.fit.outside.height.value,
                      box.fit.outside.depth.value),
          fmt::format("board {}, grain left to right as it lies here; printed side shown, all "
                      "creases fold away from it",
                      board_words(box)),
          fmt::format("creasing: channels {:.2f} mm wide and {:.2f} mm deep (1.5 times the board "
                      "and a rule of 0.71 mm)",
                      pieces::crease_width(board).value, board.value)};
}

Page net_page(const game::Game& game, const pieces::Box& box, const BoxNet& net, std::size_t index,
              const BoxArt& art) {
  const Mm bleed = bleed_of(art, index), off = bleed + Mm{1};
  const Mm lead = page_margin + off + dimension_reach;  // left of the net and above it
  const std::vector<std::string> slug = slug_of(game, box, net);
  const Mm foot = slug_height * static_cast<double>(slug.size());
  Page page;
  page.media = {std::max(least_width, net.bounds.size.width + lead * 2),
                lead + net.bounds.size.height + off + foot + page_margin * 2};
  const Vec to = Point{(page.media.width - net.bounds.size.width) / 2, lead} - net.bounds.at;
  page.trim = {net.bounds.at + to, net.bounds.size};
  page.bleed = grown(page.trim, bleed);
  page.label = net.name;
  const Affine map = Affine::move(to);
  place_art(page, net, index, art, NetSide::printed, map);
  const std::vector<Region> bled = grown(fold::cut_outline(*net.net), bleed);
  add_mapped(page, {line_item(to_path(bled), {Layer::bleed, {0.6, 0.3, 0.7, 1}, Mm{0.1}, {}})},
             map);
  add_mapped(page, net.drawing.scene.items, map);
  add_mapped(page, dimensions(*net.net, off), map);
  Mm y = page.media.height - page_margin - foot + slug_height / 2;
  for (const std::string& line : slug) {
    WordsLook look;
    look.type_size = Mm{2.6};
    page.own.items.push_back(words_item(line, {page.media.width / 2, y},
                                        {page.media.width - page_margin * 2, slug_height}, look));
    y = y + slug_height;
  }
  return page;
}

/// The inside of a net, when that is printed: seen turned over, with the cut for its place.
Page inside_page(const BoxNet& net, std::size_t index, const BoxArt& art) {
  const Mm bleed = bleed_of(art, index), lead = page_margin + bleed;
  Page page;
  page.media = {net.bounds.size.width + lead * 2, net.bounds.size.height + lead * 2};
  page.trim = {{lead, lead}, net.bounds.size};
  page.bleed = grown(page.trim, bleed);
  page.label = net.name + ", inside";
  const Affine map = Affine::move(Point{lead, lead} - Point{-net.bounds.right(), net.bounds.top()});
  place_art(page, net, index, art, NetSide::inside, map);
  add_mapped(page, net.drawing.scene.items, then(Affine::scale(-1, 1), map));
  return page;
}

}  // namespace

Document shop_box(const game::Game& game, const pieces::Box& box, const BoxArt& art) {
  Document document = box_document(game);
  document.line_work = LineWork::spot_colours;
  const std::vector<BoxNet> nets = box_nets(box, game.title);
  for (std::size_t i = 0; i < nets.size(); ++i) {
    document.pages.push_back(net_page(game, box, nets[i], i, art));
    if (has_art(art, i, NetSide::inside)) document.pages.push_back(inside_page(nets[i], i, art));
  }
  return document;
}

}  // namespace quoin::pack
