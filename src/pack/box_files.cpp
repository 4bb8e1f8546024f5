#include "pack/box_files.h"

#include <fmt/format.h>

#include <algorithm>

#include "game/formats.h"
#include "media/text.h"

namespace quoin::pack {
namespace {

constexpr Mm hairline{0.2};
constexpr Mm room = 12_mm;  // round a net on a page of its own
constexpr Mm words_height = 5_mm;
constexpr Colour cut_ink{0.75, 0.1, 0.1, 1}, crease_ink{0.1, 0.3, 0.7, 1},
    glue_ink{0.2, 0.5, 0.25, 1};

Item line(Layer layer, Path path, Colour ink, std::vector<Mm> dash) {
  ShapeItem shape;
  shape.path = std::move(path);
  shape.stroke.paint = ink;
  shape.stroke.width = hairline;
  shape.stroke.dash = std::move(dash);
  Item item;
  item.layer = layer;
  item.what = std::move(shape);
  return item;
}

Path between(Point from, Point to) {
  Path path;
  path.move_to(from).line_to(to);
  return path;
}

Scene net_scene(const fold::Net& net) {
  Scene scene;
  for (const fold::Glue& glue : net.glue) {
    scene.items.push_back(line(Layer::glue, Path::polygon(glue.area), glue_ink, {1_mm, 1_mm}));
  }
  for (const fold::Hinge& hinge : net.hinges) {
    scene.items.push_back(
        line(Layer::crease, between(hinge.from, hinge.to), crease_ink, {3_mm, 1.5_mm}));
  }
  scene.items.push_back(line(Layer::cut, to_path(fold::cut_outline(net)), cut_ink, {}));
  for (const fold::Slit& slit : net.slits) {
    scene.items.push_back(line(Layer::cut, between(slit.from, slit.to), cut_ink, {}));
  }
  return scene;
}

Rect net_bounds(const fold::Net& net) {
  std::optional<Rect> all;
  for (const fold::Panel& panel : net.panels) {
    const Rect one = bounds(panel.outline);
    all = all ? covering(*all, one) : one;
  }
  return all.value_or(Rect{});
}

Item words_item(const std::string& text, Rect box) {
  TextItem words;
  words.block.style.family = house_family;
  words.block.style.type_size = Mm{2.8};
  words.block.style.smallest_size = Mm{1.6};
  words.block.runs = {TextRun{text, false, false, nullptr}};
  words.block.box = box.size;
  words.at = box.at;
  Item item;
  item.layer = Layer::mark;
  item.what = std::move(words);
  return item;
}

Document empty_document(const game::Game& game) {
  Document document;
  document.title = game.title;
  document.author = game.author;
  document.subject = "Box";
  document.language = game.language;
  document.creator = "Quoin";
  return document;
}

/// A page of that size with the net in its middle and a line of words at its foot.
Page net_page(const BoxNet& net, Size media, Mm margin, const std::string& words) {
  const Rect box = net.drawing.bounds;
  const Vec to =
      Point{(media.width - box.size.width) / 2, (media.height - box.size.height) / 2} - box.at;
  Page page;
  page.media = media;
  page.trim = page.bleed = Rect{box.at + to, box.size};
  page.label = net.name;
  for (Item item : net.drawing.scene.items) {
    item.map = Affine::move(to);
    page.own.items.push_back(std::move(item));
  }
  const Mm foot = media.height - margin - words_height;
  page.own.items.push_back(
      words_item(words, Rect{{margin, foot}, {media.width - margin * 2, words_height}}));
  return page;
}

/// Whether a net lies inside the paper's printable part, above the line of words.
bool fits(Size net, Size paper, const Insets& dead) {
  return net.width <= paper.width - dead.left - dead.right &&
         net.height + words_height * 2 <= paper.height - dead.top - dead.bottom;
}

std::optional<Size> sheet_for(Size net, Size paper, const Insets& dead) {
  const Size turned{paper.height, paper.width};
  if (fits(net, paper, dead)) return paper;
  if (fits(net, turned, dead)) return turned;
  return std::nullopt;
}

/// The name of the smallest known sheet that takes the net, "" when none does. RA and SRA are a
/// print shop's untrimmed sheets, which nobody has at home.
std::string next_sheet(Size net, const Insets& dead) {
  const game::NamedSize* best = nullptr;
  for (const game::NamedSize& named : game::paper_sizes()) {
    const auto area = [](Size size) { return size.width.value * size.height.value; };
    if (named.name.starts_with("RA") || named.name.starts_with("SRA")) continue;
    if (!sheet_for(net, named.size, dead)) continue;
    if (best == nullptr || area(named.size) < area(best->size)) best = &named;
  }
  return best == nullptr ? std::string{} : std::string(best->name);
}

Diagnostic too_large(const game::Game& game, const BoxNet& net) {
  const Size size = net.drawing.bounds.size;
  const Insets& dead = game.sheets.dead_margin;
  Diagnostic found(
      Id::box_larger_than_sheet, game.box ? game.box->origin : Origin{},
      fmt::format("the net of the box is {:.1f} x {:.1f} mm, and {} prints {:.1f} x {:.1f} mm",
                  size.width.value, size.height.value, game.sheets.paper_name,
                  (game.sheets.paper.width - dead.left - dead.right).value,
                  (game.sheets.paper.height - dead.top - dead.bottom).value));
  found.on(net.name).detail(
      "home/box.pdf is without it; the files for a shop and a cutter have it");
  const std::string larger = next_sheet(size, dead);
  if (!larger.empty()) found.hint(fmt::format("{} would take it", larger));
  found.hint("have shop/box.pdf printed, or cut it from cutter/" + net.name + ".svg");
  return found;
}

}  // namespace

std::vector<BoxNet> box_nets(const pieces::Box& box, const std::string& title) {
  std::vector<BoxNet> nets;
  for (const fold::Part& part : box.model.parts) {
    const std::string name = box.model.parts.size() == 1 ? "box" : "box-" + part.net.name;
    nets.push_back({name, {title + ", " + name, net_bounds(part.net), net_scene(part.net)}});
  }
  return nets;
}

std::string box_words(const pieces::Box& box) {
  const fold::Block& inside = box.fit.clear.size;
  return fmt::format("{} for a pile of {:.1f} to {:.1f} mm, {:.1f} x {:.1f} x {:.1f} mm inside",
                     box.kind->title, box.deck.height.low.value, box.deck.height.high.value,
                     inside.width.value, inside.height.value, inside.depth.value);
}

Document shop_box(const game::Game& game, const pieces::Box& box) {
  Document document = empty_document(game);
  document.line_work = LineWork::spot_colours;
  for (const BoxNet& net : box_nets(box, game.title)) {
    const Size size = net.drawing.bounds.size;
    document.pages.push_back(net_page(net, {size.width + room * 2, size.height + (room + 6_mm) * 2},
                                      5_mm, game.title + ": " + box_words(box)));
  }
  return document;
}

Checked<Document> home_box(const game::Game& game, const pieces::Box& box) {
  Checked<Document> made{empty_document(game), {}};
  const Insets& dead = game.sheets.dead_margin;
  const Mm margin = std::max({dead.left, dead.right, dead.top, dead.bottom});
  const std::string words =
      fmt::format("{}: {}. Print at 100 %, cut along the lines, score along the dashes.",
                  game.title, box_words(box));
  for (const BoxNet& net : box_nets(box, game.title)) {
    const auto sheet = sheet_for(net.drawing.bounds.size, game.sheets.paper, dead);
    if (sheet) {
      made.value.pages.push_back(net_page(net, *sheet, margin, words));
    } else {
      made.found.push_back(too_large(game, net));
    }
  }
  return made;
}

}  // namespace quoin::pack
