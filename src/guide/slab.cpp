#include "guide/slab.h"

#include <fmt/format.h>

#include <algorithm>

namespace quoin::guide {
namespace {

/// A page may end within a paragraph of more lines than these, each so many lines.
constexpr int whole_paragraph = 7, part_of_paragraph = 4;

constexpr Mm block_gap = grid_step;

std::vector<Slab> word_slabs(const std::string& words, Voice voice, SlabKind kind, Mm width,
                             Setting& setting) {
  const TextStyle style = style_of(voice);
  std::vector<Slab> slabs;
  if (words.empty()) return slabs;
  const int lines = setting.set(words, style, width).lines;
  const int most = lines <= whole_paragraph ? whole_paragraph : part_of_paragraph;
  for (SetWords& part : setting.parts(words, style, width, most)) {
    Slab slab;
    slab.kind = kind;
    // Whole lines, so that a paragraph in parts has the lines of one that is whole.
    slab.height = on_grid(part.first_line * part.lines);
    slab.gap = slabs.empty() ? block_gap : Mm{};
    put(slab, std::move(part.item), {});
    slabs.push_back(std::move(slab));
  }
  return slabs;
}

/// The number in the accent's colour, the title beside it, a line above both.
Slab chapter_slab(const Chapter& chapter, int number, const Look& look, Setting& setting) {
  Slab slab;
  slab.kind = SlabKind::chapter;
  slab.gap = grid_step * 5;
  slab.next = Slab::Next::same_page;
  TextStyle style = style_of(Voice::chapter);
  Path rule;
  rule.move_to({}).line_to({look.column.size.width, Mm{}});
  put(slab, line(std::move(rule), accent, Mm{0.6}), {});
  const Mm hang{13}, down{3};
  style.fill = accent;
  put(slab, setting.set(fmt::format("{}", number), style, hang).item, {Mm{}, down});
  style.fill = type_ink;
  SetWords title = setting.set(chapter.title, style, look.column.size.width - hang);
  slab.height = on_grid(down + title.height + Mm{1});
  put(slab, std::move(title.item), {hang, down});
  return slab;
}

std::vector<Slab> heading_slabs(const Heading& heading, const Look& look, Setting& setting) {
  Slab slab;
  slab.kind = SlabKind::heading;
  slab.gap = grid_step * 2.0;
  slab.next = Slab::Next::same_page;
  SetWords words = setting.set(heading.words, style_of(Voice::heading), look.measure());
  slab.height = on_grid(words.height - Mm{1});
  put(slab, std::move(words.item), {});
  return {slab};
}

/// Items of a list stand close; neither the first nor the last is alone on its page.
std::vector<Slab> tick_slabs(const TickList& list, const Look& look, Setting& setting) {
  constexpr Mm hang{7};
  std::vector<Slab> slabs;
  std::vector<std::size_t> firsts;
  for (const std::string& item : list.items) {
    std::vector<Slab> lines =
        word_slabs(item, Voice::body, SlabKind::tick, look.measure() - hang, setting);
    if (lines.empty()) continue;
    for (Slab& slab : lines) {
      for (Item& each : slab.items) each = moved(std::move(each), {hang, Mm{}});
    }
    put(lines.front(), tick_box({tick_size / 2, Mm{2.55}}), {});
    lines.front().gap = slabs.empty() ? block_gap : grid_step / 2;
    firsts.push_back(slabs.size());
    for (Slab& slab : lines) slabs.push_back(std::move(slab));
  }
  if (firsts.size() < 2) return slabs;
  const std::size_t second = firsts[1], last = firsts.back();
  slabs[second - 1].next = Slab::Next::same_page;
  slabs[last - 1].next = Slab::Next::same_page;
  return slabs;
}

std::vector<Slab> picture_slabs(const Picture& picture, const Look& look, Setting& setting) {
  Slab slab;
  slab.kind = SlabKind::picture;
  slab.gap = grid_step * 2;
  const Mm width = look.column.size.width;
  const double scale = scale_in(picture.figure, {width, look.column.size.height * 0.6});
  const Size shown{picture.figure.size.width * scale, picture.figure.size.height * scale};
  put(slab, picture.figure, {}, scale);
  slab.height = on_grid(shown.height);
  std::vector<Slab> slabs{std::move(slab)};
  if (picture.caption.empty()) return slabs;
  slabs.front().next = Slab::Next::same_page;
  for (Slab& each :
       word_slabs(picture.caption, Voice::caption, SlabKind::words, look.measure(), setting)) {
    each.gap = slabs.size() == 1 ? grid_step / 2 : Mm{};
    slabs.push_back(std::move(each));
  }
  return slabs;
}

/// One kind of block after the other.
struct SlabsOfBlock {
  const Look& look;
  Setting& setting;

  std::vector<Slab> operator()(const Heading& block) { return heading_slabs(block, look, setting); }
  std::vector<Slab> operator()(const Paragraph& block) {
    return word_slabs(block.words, Voice::body, SlabKind::words, look.measure(), setting);
  }
  std::vector<Slab> operator()(const TickList& block) { return tick_slabs(block, look, setting); }
  std::vector<Slab> operator()(const Caution& block) { return caution_slabs(block, look, setting); }
  std::vector<Slab> operator()(const Steps& block) { return step_slabs(block, look, setting); }
  std::vector<Slab> operator()(const Table& block) { return table_slabs(block, look, setting); }
  std::vector<Slab> operator()(const Picture& block) { return picture_slabs(block, look, setting); }
};

}  // namespace

void put(Slab& slab, Item item, Vec at) { slab.items.push_back(moved(std::move(item), at)); }

void put(Slab& slab, const Figure& figure, Vec at, double scale) {
  const Affine map = then(Affine::scale(scale, scale), Affine::move(at));
  for (Placement placement : figure.placed) {
    placement.map = then(placement.map, map);
    placement.window = bounds(map, placement.window);
    slab.placed.push_back(placement);
  }
  if (figure.scene.items.empty()) return;
  Item all;
  all.map = map;
  all.what = GroupItem{figure.scene.items};
  slab.items.push_back(std::move(all));
}

double scale_in(const Figure& figure, Size room) {
  if (figure.scale == Figure::Scale::true_size) return 1;
  if (figure.size.width <= epsilon || figure.size.height <= epsilon) return 1;
  return std::min(
      {figure.largest, room.width / figure.size.width, room.height / figure.size.height});
}

std::vector<Slab> slabs_of(const Chapter& chapter, int number, const Look& look, Setting& setting) {
  std::vector<Slab> slabs;
  slabs.push_back(chapter_slab(chapter, number, look, setting));
  SlabsOfBlock make{look, setting};
  for (const Block& block : chapter.blocks) {
    std::vector<Slab> more = std::visit(make, block);
    const bool is_heading = std::holds_alternative<Heading>(block);
    if (is_heading && slabs.back().kind == SlabKind::heading) slabs.pop_back();
    if (more.empty()) continue;
    if (slabs.back().kind == SlabKind::chapter) more.front().gap = grid_step * 2;
    if (slabs.back().kind == SlabKind::heading) more.front().gap = grid_step / 2;
    const bool shows =
        std::holds_alternative<Steps>(block) || std::holds_alternative<Picture>(block);
    if (shows && slabs.back().kind == SlabKind::words &&
        slabs.back().next == Slab::Next::anywhere) {
      slabs.back().next = Slab::Next::rather_same_page;  // what leads up to a picture
    }
    for (Slab& slab : more) slabs.push_back(std::move(slab));
    const auto* words = std::get_if<Paragraph>(&block);
    if (words != nullptr && words->words.ends_with(':')) slabs.back().next = Slab::Next::same_page;
  }
  while (!slabs.empty() && slabs.back().kind == SlabKind::heading) slabs.pop_back();
  if (slabs.size() == 1) slabs.clear();  // a title with nothing under it
  return slabs;
}

Item tick_box(Point middle) {
  const Vec half{tick_size / 2, tick_size / 2};
  return line(Path::rounded_rectangle({middle - half, {tick_size, tick_size}}, Mm{0.5}), quiet,
              Mm{0.3});
}

}  // namespace quoin::guide
