#include <fmt/format.h>

#include <algorithm>

#include "pack/box_document.h"
#include "pack/net_inside.h"
#include "pack/net_lines.h"
#include "pack/sheet_foot.h"
#include "sheets/printable.h"

namespace quoin::pack {
namespace {

/// All that the pages of one file are made from.
struct HomeWork {
  const game::Game& game;
  const pieces::Box& box;
  const BoxArt& art;
  const BoxSheets& sheets;
  std::vector<BoxNet> nets;

  [[nodiscard]] bool lines_on_back() const { return sheets.lines == game::NetLines::back; }
  [[nodiscard]] bool any_art(NetSide side) const {
    for (std::size_t net = 0; net < nets.size(); ++net) {
      if (has_art(art, net, side)) return true;
    }
    return false;
  }
  /// With lines on the backs and nothing to print on the fronts there are no front pages. All
  /// sheets are alike in this, so that a printer's two sides never come to lie on two sheets.
  [[nodiscard]] bool has_fronts() const { return !lines_on_back() || any_art(NetSide::printed); }
  [[nodiscard]] bool has_backs() const { return lines_on_back() || any_art(NetSide::inside); }
  [[nodiscard]] bool has_both() const { return has_fronts() && has_backs(); }
};

Page blank_page(const HomeWork& work, const NetSheet& sheet) {
  Page page;
  page.media = sheet.paper;
  const Rect whole{{}, sheet.paper};
  if (sheet.correction) page.printed = sheet.correction->front;
  for (const NetPlace& place : sheet.nets) {
    const auto net = static_cast<std::size_t>(place.net);
    const Rect cut = work.nets[net].bounds;
    const Rect trim = bounds(place.map, cut);
    const Rect bleed = bounds(place.map, grown(cut, bleed_of(work.art, net)));
    page.trim = page.trim.size == Size{} ? trim : covering(page.trim, trim);
    page.bleed = page.bleed.size == Size{} ? bleed : covering(page.bleed, bleed);
  }
  page.bleed = overlap(page.bleed, whole).value_or(whole);
  return page;
}

Rect foot_of(const HomeWork& work, Size paper) {
  const Rect printed = sheets::printable(work.game.sheets, paper);
  return {{printed.left(), printed.bottom() - foot_height}, {printed.size.width, foot_height}};
}

std::string how_to_print(const HomeWork& work, const NetSheet& sheet) {
  std::string words = "Print at 100 %";
  if (work.has_both()) {
    const bool by_printer = work.game.sheets.backs == game::BackPrinting::printer;
    const bool long_edge = work.game.sheets.flip == game::FlipEdge::long_edge;
    words += by_printer
                 ? fmt::format(", both sides, flipped on the {} edge", long_edge ? "long" : "short")
                 : std::string(", then the next page on the back of the sheet");
  }
  if (sheet.times > 1) words += fmt::format(", {} times", sheet.times);
  return words + ".";
}

std::string sheet_words(const HomeWork& work, const NetSheet& sheet) {
  const bool whole_box = sheet.nets.size() >= work.nets.size();
  const std::string nets = whole_box ? std::string() : ", " + titles_of(work.nets, sheet.nets);
  const auto sets = std::count_if(sheet.nets.begin(), sheet.nets.end(), [&](const NetPlace& place) {
    return place.net == sheet.nets.front().net;
  });
  const std::string several = sets > 1 ? fmt::format(" for {} boxes", sets) : std::string();
  return fmt::format("{}: {}{}{}. {}", work.game.title, work.box.kind->title, nets, several,
                     how_to_print(work, sheet));
}

Item filled(Rect box, Layer layer, Colour colour) {
  ShapeItem shape;
  shape.path = Path::rectangle(box);
  shape.fill = colour;
  Item item;
  item.layer = layer;
  item.what = std::move(shape);
  return item;
}

/// What the lines on a front mean. Samples stand about a line from (0, 0) to the right.
std::vector<KeyEntry> front_key(const HomeWork& work) {
  if (work.lines_on_back()) {
    return {{{}, "the lines to cut and score along are on the back of this sheet"}};
  }
  const Mm wide = sample_width, half = sample_height / 2;
  KeyEntry cut{{filled({{Mm{}, -half}, {wide, half}}, Layer::mark, {0.85, 0.85, 0.85, 1}),
                line_item(between({Mm{}, edge_width / 2}, {wide, edge_width / 2}),
                          {Layer::cut, black, edge_width, {}})},
               "cut along the line, on the side of the box"};
  KeyEntry crease{
      {line_item(between({Mm{}, Mm{}}, {Mm{3}, Mm{}}), {Layer::crease, black, tick_width, {}}),
       line_item(between({wide - Mm{3}, Mm{}}, {wide, Mm{}}),
                 {Layer::crease, black, tick_width, {}})},
      "score from tick to tick, then fold away from you"};
  const Polygon patch{{Mm{}, -half}, {wide, -half}, {wide, half}, {Mm{}, half}};
  KeyEntry glue{glue_mark(patch, {"glue"}), "glue on this side"};
  return {std::move(cut), std::move(crease), std::move(glue)};
}

Page front_page(const HomeWork& work, const NetSheet& sheet) {
  Page page = blank_page(work, sheet);
  for (const NetPlace& place : sheet.nets) {
    const auto index = static_cast<std::size_t>(place.net);
    const BoxNet& net = work.nets[index];
    place_art(page, net, index, work.art, NetSide::printed, place.map);
    if (work.lines_on_back()) continue;
    add_mapped(page, cut_edges(*net.net), place.map);
    for (const sheets::MarkLine& tick : crease_ticks(*net.net)) {
      add_mapped(page,
                 {line_item(between(tick.from, tick.to), {Layer::crease, black, tick_width, {}})},
                 place.map);
    }
    const std::vector<std::string> words{work.nets.size() == 1 ? "glue" : "glue: " + net.title,
                                         "glue"};
    for (const fold::Glue& glue : net.net->glue) {
      add_mapped(page, glue_mark(glue.area, words), place.map);
    }
  }
  for (Item& item :
       sheet_foot(foot_of(work, sheet.paper), sheet_words(work, sheet), front_key(work))) {
    page.own.items.push_back(std::move(item));
  }
  return page;
}

std::vector<KeyEntry> back_key() {
  const Point left{}, right{sample_width, Mm{}};
  const Mm half = sample_height / 2;
  const Rect patch{{Mm{}, -half}, {sample_width, sample_height}};
  return {
      {{line_item(between(left, right), inside_cut())}, "cut"},
      {{line_item(between(left, right), inside_crease())}, "score, then fold towards you"},
      {{line_item(Path::rectangle(patch), inside_glue())}, "glue goes on the other side of this"}};
}

/// The other side of a sheet: each net turned over in its place.
Page back_page(const HomeWork& work, const NetSheet& sheet) {
  Page page = blank_page(work, sheet);
  if (sheet.correction) page.printed = sheet.correction->back;
  const Affine turned_over = sheets::behind(sheet.paper, work.game.sheets.flip);
  page.trim = bounds(turned_over, page.trim);
  page.bleed = bounds(turned_over, page.bleed);
  for (const NetPlace& place : sheet.nets) {
    const auto index = static_cast<std::size_t>(place.net);
    const BoxNet& net = work.nets[index];
    const Affine map = then(then(Affine::scale(-1, 1), place.map), turned_over);
    place_art(page, net, index, work.art, NetSide::inside, map);
    if (work.lines_on_back()) add_mapped(page, inside_lines(*net.net), map);
  }
  if (!work.lines_on_back()) return page;
  for (Item& item : sheet_foot(foot_of(work, sheet.paper),
                               sheet_words(work, sheet) + " This is the inside.", back_key())) {
    page.own.items.push_back(std::move(item));
  }
  return page;
}

Flip flip_of(const game::SheetWishes& wishes) {
  if (wishes.backs != game::BackPrinting::printer) return Flip::none;
  return wishes.flip == game::FlipEdge::long_edge ? Flip::long_edge : Flip::short_edge;
}

}  // namespace

Document home_box(const game::Game& game, const pieces::Box& box, const BoxArt& art,
                  const BoxSheets& sheets) {
  const HomeWork work{game, box, art, sheets, box_nets(box, game.title)};
  Document document = box_document(game);
  if (work.has_both()) document.duplex = flip_of(game.sheets);
  for (std::size_t i = 0; i < sheets.sheets.size(); ++i) {
    const NetSheet& sheet = sheets.sheets[i];
    const auto add = [&](Page page, const char* side) {
      page.label = fmt::format("{} {} of {}", side, i + 1, sheets.sheets.size());
      document.pages.push_back(std::move(page));
    };
    if (work.has_fronts()) add(front_page(work, sheet), "front");
    if (work.has_backs()) add(back_page(work, sheet), "back");
  }
  return document;
}

}  // namespace quoin::pack
