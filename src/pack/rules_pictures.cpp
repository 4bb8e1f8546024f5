#include "pack/rules_pictures.h"

#include <fmt/format.h>

#include <algorithm>

#include "formats/png/png.h"
#include "rules/folding.h"
#include "scene/setting.h"
#include "scene/shapes.h"

namespace quoin::pack {
namespace {

constexpr Colour table_ground{0.91, 0.90, 0.87, 1}, page_edge{0.1, 0.1, 0.12, 0.22},
    words_ink{0.16, 0.18, 0.2, 1}, step_ink{0.13, 0.28, 0.36, 1};

Item page_on_table(const Scene& page, Size size, Point at) {
  GroupItem group;
  const Rect whole{{}, size};
  group.items.push_back(shape(Path::rectangle({{Mm{0.4}, Mm{0.6}}, size}), Colour{0, 0, 0, 0.10}));
  group.items.push_back(shape(Path::rectangle(whole), white));
  Item words;
  words.clip = Path::rectangle(whole);
  words.what = GroupItem{page.items};
  group.items.push_back(std::move(words));
  group.items.push_back(line(Path::rectangle(whole), page_edge, Mm{0.12}));
  Item item;
  item.map = Affine::move(at - Point{});
  item.what = std::move(group);
  return item;
}

TextStyle plain_words(Mm type, int weight, Colour ink) {
  TextStyle style;
  style.family = house_family;
  style.type_size = style.smallest_size = type;
  style.weight = weight;
  style.fill = Paint{ink};
  style.leading = 1.3;
  return style;
}

void add_words(std::vector<Item>& items, Setting& setting, const std::string& words,
               const TextStyle& style, Mm width, Point at) {
  items.push_back(
      moved(setting.set({{words, false, false, nullptr}}, style, width).item, at - Point{}));
}

std::string as_sentence(std::string words) {
  if (!words.empty() && words[0] >= 'a' && words[0] <= 'z') {
    words[0] = static_cast<char>(words[0] - 'a' + 'A');
  }
  return words + ".";
}

}  // namespace

PlainPicture rules_pages_picture(const rules::Leaflet& leaflet, Typesetter& typesetter) {
  PlainPicture picture;
  const Size page = leaflet.form.page;
  const Mm gap = page.width * 0.09;
  const int count = static_cast<int>(leaflet.pages.size()), across = std::min(count, 4);
  const int rows = (count + across - 1) / across;
  picture.size = {(page.width + gap) * across + gap, (page.height + gap) * rows + gap};
  picture.scene.items.push_back(shape(Path::rectangle({{}, picture.size}), table_ground));
  for (int i = 0; i < count; ++i) {
    const Point at{gap + (page.width + gap) * (i % across),
                   gap + (page.height + gap) * (i / across)};
    picture.scene.items.push_back(
        page_on_table(leaflet.pages[static_cast<std::size_t>(i)], page, at));
  }
  typeset(picture.scene, typesetter);
  return picture;
}

PlainPicture rules_folding_picture(const rules::Leaflet& leaflet, Typesetter& typesetter) {
  PlainPicture picture;
  const std::vector<rules::FoldingStep> steps = rules::folding_steps(leaflet.form, typesetter);
  if (steps.empty()) return picture;
  const int count = static_cast<int>(steps.size()), across = std::min(count, 3);
  const int rows = (count + across - 1) / across;
  constexpr Mm wide{86}, high{64}, words_high{15}, gap{8};
  picture.size = {(wide + gap) * across + gap, (high + words_high + gap) * rows + gap};
  picture.scene.items.push_back(shape(Path::rectangle({{}, picture.size}), white));
  double scale = 1;  // the same for all, so that what is folded is seen to be smaller
  for (const rules::FoldingStep& step : steps) {
    const Size seen = step.picture.bounds.size;
    scale = std::min({scale, wide / seen.width, high / seen.height});
  }
  Setting setting(typesetter);
  for (int i = 0; i < count; ++i) {
    const rules::FoldingStep& step = steps[static_cast<std::size_t>(i)];
    const Point at{gap + (wide + gap) * (i % across),
                   gap + (high + words_high + gap) * (i / across)};
    const Rect& seen = step.picture.bounds;
    const Size shown{seen.size.width * scale, seen.size.height * scale};
    Item drawing;
    drawing.map =
        then(then(Affine::move(Point{} - seen.at), Affine::scale(scale, scale)),
             Affine::move(at - Point{} + Vec{(wide - shown.width) / 2, high - shown.height}));
    drawing.what = GroupItem{step.picture.scene.items};
    picture.scene.items.push_back(std::move(drawing));
    const Point foot = at + Vec{Mm{}, high + Mm{2}};
    add_words(picture.scene.items, setting, std::to_string(i + 1),
              plain_words(Mm{4.6}, 700, step_ink), Mm{7}, foot + Vec{Mm{}, Mm{-0.5}});
    add_words(picture.scene.items, setting, as_sentence(step.words),
              plain_words(Mm{3.3}, 400, words_ink), wide - Mm{8}, foot + Vec{Mm{8}, Mm{}});
  }
  typeset(picture.scene, typesetter);
  return picture;
}

Bytes png_of(const PlainPicture& picture, int width, PictureShelf& shelf, Diagnostics& found) {
  const double ppi = width * mm_per_inch / picture.size.width.value;
  ImageCanvas image(shelf, picture.size, ppi, ImageCanvas::Background::paper);
  draw(picture.scene, image.canvas());
  found.insert(found.end(), image.found().begin(), image.found().end());
  return write_png(image.raster(), ppi);
}

}  // namespace quoin::pack
