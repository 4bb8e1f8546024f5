#include "sample_cards.h"

#include <fstream>
#include <stdexcept>

namespace quoin::outside {

Bytes SampleCards::file(const std::string& name) {
  std::ifstream stream(std::string(QUOIN_SOURCE_DIR) + "/tests/outside/data/pictures/" + name,
                       std::ios::binary);
  if (!stream) throw std::runtime_error("no picture " + name);
  return Bytes(std::istreambuf_iterator<char>(stream), {});
}

SampleCards::SampleCards() : shelf_(world_), typesetter_({}) {
  for (const char* name : {"tide.jpg", "inks.jpg", "shell.png"}) world_.put(name, file(name));
}

Item SampleCards::picture(const std::string& name, Rect to) {
  Diagnostics found;
  Result<PicturePtr> opened = shelf_.open(name, {}, found);
  Item item;
  item.element = name;
  item.what = PictureItem{opened.value(), to, to, false};
  return item;
}

Item SampleCards::rectangle(Rect where, Paint paint) {
  Item item;
  item.what = ShapeItem{Path::rectangle(where), paint, {}};
  return item;
}

Item SampleCards::text(const std::string& words, Rect box) {
  TextItem text;
  text.block.runs.push_back({words, false, false, nullptr});
  text.block.style.family = house_family;
  text.block.box = box.size;
  text.at = box.at;
  text.set = typesetter_.set(text.block);
  Item item;
  item.what = text;
  return item;
}

Rect SampleCards::face_bounds() { return {{-3_mm, -3_mm}, {69_mm, 94_mm}}; }

Scene SampleCards::face() {
  const LinearGradient sky{
      {0_mm, 0_mm}, {0_mm, 88_mm}, {{{0.95, 0.85, 0.6}, 0}, {{0.2, 0.4, 0.6}, 1}}};
  Item veil = rectangle({{5_mm, 60_mm}, {53_mm, 20_mm}}, white);
  veil.opacity = 0.6;
  Item turned = picture("shell.png", {{40_mm, 45_mm}, {14_mm, 14_mm}});
  turned.map = Affine::turn_about({47_mm, 52_mm}, Angle::degrees(30));
  Item raised = rectangle({{6_mm, 45_mm}, {20_mm, 10_mm}}, Colour{0.8, 0.1, 0.2, 1});
  raised.shadow = Shadow{{0, 0, 0, 0.5}, {1_mm, 1_mm}, 2_mm};
  raised.element = "raised";
  return {{rectangle(face_bounds(), sky), picture("tide.jpg", {{5_mm, 5_mm}, {53_mm, 38_mm}}), veil,
           turned, raised, text("Five fish, a naïve offer", {{7_mm, 62_mm}, {49_mm, 6_mm}}),
           text("Ærøskøbing & Wrack", {{7_mm, 70_mm}, {49_mm, 6_mm}})}};
}

Bytes SampleCards::pdf(const std::vector<Scene>& drawings, const Document& document) {
  std::vector<Symbol> symbols;
  for (const Scene& drawing : drawings) {
    symbols.push_back({face_bounds(), [drawing] { return drawing; }});
  }
  const Result<DrawnSymbols> drawn = DrawnSymbols::draw(symbols, shelf_, {});
  return write_pdf(document, drawn.value(), shelf_).value();
}

Page SampleCards::page(Size media, const std::vector<int>& drawings) {
  Page page;
  page.media = media;
  page.trim = page.bleed = {{}, media};
  Point at{5_mm, 5_mm};
  for (const int drawing : drawings) {
    if (at.x + 63_mm > media.width) at = {5_mm, at.y + 88_mm};
    page.placements.push_back({drawing, Affine::move(at - Point{}), Rect{at, {63_mm, 88_mm}}});
    at.x += 63_mm;
  }
  return page;
}

}  // namespace quoin::outside
