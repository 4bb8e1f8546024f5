#include "pack/rules_files.h"

#include <fmt/format.h>

#include <algorithm>

#include "pack/box_document.h"
#include "pack/net_lines.h"
#include "pack/sheet_foot.h"
#include "sheets/printable.h"

namespace quoin::pack {
namespace {

using rules::FoldLine;
using rules::PagePlace;
using Side = PagePlace::Side;

constexpr Mm rules_tick_off{0.5}, rules_tick{2.4}, rules_hair{0.15};
constexpr Mm shop_bleed{3}, shop_room{15};

Document rules_document(const game::Game& game) {
  Document document = box_document(game);
  document.title = game.title + ": rules";
  document.subject = "Rules";
  return document;
}

/// From the frame of a page to that of its leaf's side.
Affine on_its_side(const PagePlace& place, Size page) {
  const Mm off = place.at.left() > Mm{} ? place.creep : -place.creep;
  Affine map;
  if (place.way == PagePlace::Way::upside_down) {
    map = Affine::turn_about({page.width / 2, page.height / 2}, Angle::degrees(180));
  }
  return then(map, Affine::move(place.at.at - Point{} + Vec{off, Mm{}}));
}

/// Places the pages of one side of a leaf. `map` takes that side's frame to the page of the file.
void place_pages(Page& page, const rules::Leaflet& leaflet, int leaf, Side side,
                 const Affine& map) {
  const rules::Form& form = leaflet.form;
  for (int i = 0; i < form.page_count(); ++i) {
    const PagePlace& place = form.pages[static_cast<std::size_t>(i)];
    if (place.leaf != leaf || place.side != side) continue;
    page.placements.push_back({i, then(on_its_side(place, form.page), map), bounds(map, place.at)});
  }
}

/// The back's frame in that of the front: what is seen on the left lies behind the right.
Affine back_of_leaf(Size leaf) { return {-1, 0, 0, 1, leaf.width, {}}; }

void add_tick(std::vector<Item>& items, Point at, Vec way, Layer layer, FoldLine::Way fold) {
  LineLook look{layer, black, rules_hair, {}};
  if (fold == FoldLine::Way::towards_reader) look.dash = {Mm{0.5}, Mm{0.5}};
  items.push_back(line_item(
      between(at + way * rules_tick_off.value, at + way * (rules_tick_off + rules_tick).value),
      look));
}

/// Ticks at the corners of a leaf, and at both ends of each fold.
std::vector<Item> ticks_of(const rules::Form& form) {
  std::vector<Item> items;
  const Vec left{Mm{-1}, Mm{}}, right{Mm{1}, Mm{}}, up{Mm{}, Mm{-1}}, down{Mm{}, Mm{1}};
  const Point far{form.leaf.width, form.leaf.height};
  for (const Mm x : {Mm{}, far.x}) {
    for (const Mm y : {Mm{}, far.y}) {
      add_tick(items, {x, y}, x == Mm{} ? left : right, Layer::cut, FoldLine::Way::away);
      add_tick(items, {x, y}, y == Mm{} ? up : down, Layer::cut, FoldLine::Way::away);
    }
  }
  for (const FoldLine& fold : form.folds) {
    const bool upright = fold.from.x == fold.to.x;
    add_tick(items, fold.from, upright ? up : left, Layer::crease, fold.way);
    add_tick(items, fold.to, upright ? down : right, Layer::crease, fold.way);
  }
  return items;
}

Item slit_line(const fold::Slit& slit) {
  return line_item(between(slit.from, slit.to),
                   {Layer::cut, grey_ink, Mm{0.2}, {Mm{1.6}, Mm{1.2}}});
}

std::vector<KeyEntry> rules_key(const rules::Form& form) {
  const Point left{}, right{sample_width, Mm{}};
  std::vector<KeyEntry> key;
  const Mm half = sample_height / 2;
  key.push_back(
      {{line_item(between({Mm{4}, -half}, {Mm{4}, half}), {Layer::cut, black, rules_hair, {}})},
       form.folds.empty() ? "cut from tick to tick"
                          : "at the corners: cut from tick to "
                            "tick"});
  bool away = false, towards = false;
  for (const FoldLine& fold : form.folds) {
    (fold.way == FoldLine::Way::away ? away : towards) = true;
  }
  if (away) {
    key.push_back({{line_item(between({Mm{4}, -half}, {Mm{4}, half}),
                              {Layer::crease, black, rules_hair, {}})},
                   "between them: fold away from you"});
  }
  if (towards) {
    key.push_back({{line_item(between({Mm{4}, -half}, {Mm{4}, half}),
                              {Layer::crease, black, rules_hair, {Mm{0.5}, Mm{0.5}}})},
                   "fold towards you"});
  }
  if (form.slit) {
    key.push_back(
        {{line_item(between(left, right), {Layer::cut, grey_ink, Mm{0.2}, {Mm{1.6}, Mm{1.2}}})},
         "slit"});
  }
  return key;
}

bool prints_both(const rules::Leaflet& leaflet) {
  return leaflet.form.sides == rules::Form::Sides::both;
}

std::string sheet_line(const game::Game& game, const rules::Leaflet& leaflet,
                       const RulesSheet& sheet) {
  std::string words =
      fmt::format("{}: rules, {}. Print at 100 %", game.title, rules::form_words(leaflet.form));
  if (prints_both(leaflet)) {
    const bool by_printer = game.sheets.backs != game::BackPrinting::by_hand;
    const bool long_edge = game.sheets.flip == game::FlipEdge::long_edge;
    words += by_printer
                 ? fmt::format(", both sides, flipped on the {} edge", long_edge ? "long" : "short")
                 : std::string(", then the next page on the back of the sheet");
  }
  if (sheet.times > 1) words += fmt::format(", {} times", sheet.times);
  return words + ".";
}

Page sheet_page(const RulesSheet& sheet) {
  Page page;
  page.media = sheet.paper;
  for (const LeafPlace& leaf : sheet.leaves) {
    page.trim = page.trim.size == Size{} ? leaf.trim : covering(page.trim, leaf.trim);
  }
  page.bleed = page.trim;
  return page;
}

Page front_sheet(const game::Game& game, const rules::Leaflet& leaflet, const RulesSheet& sheet) {
  Page page = sheet_page(sheet);
  if (sheet.correction) page.printed = sheet.correction->front;
  for (const LeafPlace& leaf : sheet.leaves) {
    place_pages(page, leaflet, leaf.leaf, Side::front, leaf.map);
    if (leaflet.whole_sheet) continue;
    add_mapped(page, ticks_of(leaflet.form), leaf.map);
    if (leaflet.form.slit) add_mapped(page, {slit_line(*leaflet.form.slit)}, leaf.map);
  }
  if (leaflet.whole_sheet) return page;
  const Rect printed = sheets::printable(game.sheets, sheet.paper);
  const Rect foot{{printed.left(), printed.bottom() - foot_height},
                  {printed.size.width, foot_height}};
  for (Item& item : sheet_foot(foot, sheet_line(game, leaflet, sheet), rules_key(leaflet.form))) {
    page.own.items.push_back(std::move(item));
  }
  return page;
}

Page back_sheet(const game::Game& game, const rules::Leaflet& leaflet, const RulesSheet& sheet) {
  Page page = sheet_page(sheet);
  if (sheet.correction) page.printed = sheet.correction->back;
  const Affine turned_over = sheets::behind(sheet.paper, game.sheets.flip);
  page.trim = page.bleed = bounds(turned_over, page.trim);
  for (const LeafPlace& leaf : sheet.leaves) {
    place_pages(page, leaflet, leaf.leaf, Side::back,
                then(then(back_of_leaf(leaflet.form.leaf), leaf.map), turned_over));
  }
  return page;
}

/// One side of the open leaf for a print shop.
Page shop_side(const rules::Leaflet& leaflet, Side side) {
  const rules::Form& form = leaflet.form;
  Page page;
  const Vec to{shop_room, shop_room};
  page.media = {form.leaf.width + shop_room * 2, form.leaf.height + shop_room * 2};
  page.trim = {Point{} + to, form.leaf};
  page.bleed = grown(page.trim, shop_bleed);
  place_pages(page, leaflet, 0, side, Affine::move(to));
  Affine map = Affine::move(to);
  if (side == Side::back) map = then(back_of_leaf(form.leaf), map);
  std::vector<Item> lines;
  for (const FoldLine& fold : form.folds) {
    lines.push_back(
        line_item(between(fold.from, fold.to), {Layer::crease, crease_ink, rules_hair, {}}));
  }
  if (form.slit) {
    lines.push_back(
        line_item(between(form.slit->from, form.slit->to), {Layer::cut, cut_ink, rules_hair, {}}));
  }
  lines.push_back(
      line_item(Path::rectangle({{}, form.leaf}), {Layer::cut, cut_ink, rules_hair, {}}));
  add_mapped(page, std::move(lines), map);
  return page;
}

Page shop_page(const rules::Leaflet& leaflet, int index) {
  const Size size = leaflet.form.page;
  Page page;
  const Vec to{shop_bleed, shop_bleed};
  page.media = {size.width + shop_bleed * 2, size.height + shop_bleed * 2};
  page.trim = {Point{} + to, size};
  page.bleed = {{}, page.media};
  page.placements.push_back({index, Affine::move(to), page.trim});
  page.label = std::to_string(index + 1);
  return page;
}

Flip rules_flip(const game::SheetWishes& wishes) {
  if (wishes.backs != game::BackPrinting::printer) return Flip::none;
  return wishes.flip == game::FlipEdge::long_edge ? Flip::long_edge : Flip::short_edge;
}

}  // namespace

std::vector<Symbol> rules_symbols(const rules::Leaflet& leaflet) {
  std::vector<Symbol> symbols;
  for (const Scene& page : leaflet.pages) {
    symbols.push_back({{{}, leaflet.form.page}, [&page] { return page; }});
  }
  return symbols;
}

Document home_rules(const game::Game& game, const rules::Leaflet& leaflet,
                    const RulesSheets& sheets) {
  Document document = rules_document(game);
  if (prints_both(leaflet)) document.duplex = rules_flip(game.sheets);
  for (std::size_t i = 0; i < sheets.sheets.size(); ++i) {
    const auto add = [&](Page page, const char* side) {
      page.label = fmt::format("{} {} of {}", side, i + 1, sheets.sheets.size());
      document.pages.push_back(std::move(page));
    };
    add(front_sheet(game, leaflet, sheets.sheets[i]), "front");
    if (prints_both(leaflet)) add(back_sheet(game, leaflet, sheets.sheets[i]), "back");
  }
  return document;
}

Document shop_rules(const game::Game& game, const rules::Leaflet& leaflet) {
  Document document = rules_document(game);
  const game::RulesForm kind = leaflet.form.kind;
  if (kind == game::RulesForm::booklet || kind == game::RulesForm::flat) {
    for (int i = 0; i < leaflet.form.page_count(); ++i) {
      document.pages.push_back(shop_page(leaflet, i));
    }
    return document;
  }
  document.line_work = LineWork::spot_colours;
  document.pages.push_back(shop_side(leaflet, Side::front));
  document.pages.back().label = "front";
  if (!prints_both(leaflet)) return document;
  document.pages.push_back(shop_side(leaflet, Side::back));
  document.pages.back().label = "back";
  return document;
}

}  // namespace quoin::pack
