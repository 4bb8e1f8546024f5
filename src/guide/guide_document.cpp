#include "guide/guide_document.h"

#include <fmt/format.h>

#include <algorithm>

#include "guide/pages.h"

namespace quoin::guide {
namespace {

Document empty_guide(const Guide& guide) {
  Document document;
  document.title = guide.title;
  document.author = guide.author;
  document.subject = "How to make it";
  document.language = "en";
  document.creator = "Quoin";
  return document;
}

Page blank(const Look& look, std::size_t number) {
  Page page;
  page.media = look.page;
  page.label = fmt::format("{}", number);
  return page;
}

/// The game's title on the left, the number on the right, under a fine line.
void add_foot(Page& page, const Look& look, const Guide& guide, Setting& setting) {
  const Mm top = look.column.bottom() + Mm{7};
  Path rule;
  rule.move_to({look.column.left(), top}).line_to({look.column.right(), top});
  page.own.items.push_back(line(std::move(rule), hairline, Mm{0.2}));
  TextStyle style = style_of(Voice::foot);
  const Vec at{look.column.left(), top + Mm{1.4}};
  page.own.items.push_back(
      moved(setting.set(as_words(guide.title, 60), style, look.column.size.width * 0.85).item, at));
  style.align = TextAlign::right;
  style.weight = 700;
  style.fill = type_ink;
  const Mm width = look.column.size.width * 0.12;
  page.own.items.push_back(moved(setting.set(page.label, style, width).item,
                                 at + Vec{look.column.size.width - width, Mm{}}));
}

/// What is put onto the cover from the top down, or from its foot up.
class CoverPage {
 public:
  CoverPage(Page& page, const Look& look, Setting& setting)
      : page_(page), look_(look), setting_(setting), top_(look.column.top()) {}

  void words(const std::string& text, const TextStyle& style, Mm gap) {
    if (text.empty()) return;
    SetWords set = setting_.set(text, style, look_.column.size.width);
    top_ = top_ + gap;
    page_.own.items.push_back(moved(std::move(set.item), {look_.column.left(), top_}));
    top_ = top_ + set.height;
  }

  void bar() {
    page_.own.items.push_back(
        shape(Path::rectangle({{look_.column.left(), top_}, {Mm{26}, Mm{1.6}}}), accent));
    top_ = top_ + Mm{4};
  }

  /// The chapters with their pages on the left, the facts on the right, on the foot.
  [[nodiscard]] Mm foot(const std::vector<std::string>& chapters, const std::vector<int>& begins,
                        const std::vector<std::string>& facts) {
    const Mm line_height = grid_step * 2.2;
    const auto lines = static_cast<double>(chapters.size() + 1);
    const Mm top = look_.column.bottom() - line_height * lines;
    const Mm width = look_.share(2);
    const Mm left = look_.column.left(), right = left + width + gutter;
    contents(chapters, begins, {{left, top}, {width, line_height}});
    at({right, top}, "At a glance", style_of(Voice::table_head), width);
    Mm down = top + line_height;
    for (const std::string& fact : facts) {
      down = down + at({right, down}, fact, style_of(Voice::caption), width) + Mm{1.2};
    }
    return top;
  }

  void picture(const Figure& figure, Mm bottom) {
    const Rect room{{look_.column.left(), top_ + Mm{8}},
                    {look_.column.size.width, bottom - top_ - Mm{18}}};
    if (room.size.height < Mm{30}) return;
    const double scale = scale_in(figure, room.size);
    const Size shown{figure.size.width * scale, figure.size.height * scale};
    Slab slab;
    put(slab, figure, room.centre() - Vec{shown.width / 2, shown.height / 2} - Point{}, scale);
    for (Item& item : slab.items) page_.own.items.push_back(std::move(item));
    for (Placement& placement : slab.placed) page_.placements.push_back(placement);
  }

 private:
  /// Words at a place; how high they are.
  Mm at(Point place, const std::string& text, const TextStyle& style, Mm width) {
    SetWords set = setting_.set(text, style, width);
    page_.own.items.push_back(moved(std::move(set.item), place - Point{}));
    return set.height;
  }

  /// `first` is the line for the words above the list.
  void contents(const std::vector<std::string>& chapters, const std::vector<int>& begins,
                Rect first) {
    at(first.at, "What is in here", style_of(Voice::table_head), first.size.width);
    Point place = first.at;
    TextStyle number = style_of(Voice::caption);
    number.align = TextAlign::right;
    for (std::size_t i = 0; i < chapters.size(); ++i) {
      place.y = place.y + first.size.height;
      TextStyle style = style_of(Voice::caption);
      style.fill = type_ink;
      at(place, fmt::format("{}   {}", i + 1, chapters[i]), style, first.size.width - Mm{12});
      at({place.x + first.size.width - Mm{12}, place.y}, fmt::format("{}", begins[i] + 2), number,
         Mm{12});
      Path under;
      const Mm foot = place.y + first.size.height - Mm{0.6};
      under.move_to({place.x, foot}).line_to({place.x + first.size.width, foot});
      page_.own.items.push_back(line(std::move(under), hairline, Mm{0.15}));
    }
  }

  Page& page_;
  const Look& look_;
  Setting& setting_;
  Mm top_;
};

Page cover_page(const Guide& guide, const std::vector<std::string>& chapters,
                const std::vector<int>& begins, const Look& look, Setting& setting) {
  Page page = blank(look, 1);
  CoverPage cover(page, look, setting);
  cover.bar();
  cover.words(as_words(guide.cover.title, 100), style_of(Voice::title), Mm{});
  cover.words(as_words(guide.cover.subtitle, 200), style_of(Voice::subtitle), Mm{1});
  TextStyle what = style_of(Voice::subtitle);
  what.fill = accent;
  what.weight = 700;
  cover.words(guide.cover.what, what, Mm{3});
  const Mm foot = cover.foot(chapters, begins, guide.cover.facts);
  cover.picture(guide.cover.picture, foot);
  return page;
}

}  // namespace

Document document_of(const Guide& guide, Typesetter& typesetter) {
  Document document = empty_guide(guide);
  const Look look = look_for(guide.page);
  Setting setting(typesetter);
  std::vector<ChapterSlabs> chapters;
  std::vector<std::string> titles;
  for (const Chapter& chapter : guide.chapters) {
    const int number = static_cast<int>(chapters.size()) + 1;
    ChapterSlabs slabs{slabs_of(chapter, number, look, setting), chapter.opening};
    if (slabs.slabs.empty()) continue;
    chapters.push_back(std::move(slabs));
    titles.push_back(chapter.title);
  }
  Laid laid = run_over_pages(chapters, look);
  document.pages.push_back(cover_page(guide, titles, laid.begins, look, setting));
  for (LaidPage& each : laid.pages) {
    Page page = blank(look, document.pages.size() + 1);
    page.own.items = std::move(each.items);
    page.placements = std::move(each.placed);
    add_foot(page, look, guide, setting);
    document.pages.push_back(std::move(page));
  }
  for (Page& page : document.pages) typeset(page.own, typesetter);  // words within figures
  return document;
}

}  // namespace quoin::guide
