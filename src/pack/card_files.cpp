#include "pack/card_files.h"

#include <fmt/format.h>

#include "media/text.h"

namespace quoin::pack {
namespace {

using sheets::Side;

Document empty_document(const CardWork& work, const std::string& subject, Flip flip) {
  Document document;
  document.title = work.game.title;
  document.author = work.game.author;
  document.subject = subject;
  document.language = work.game.language;
  document.creator = "Quoin";
  document.duplex = flip;
  return document;
}

Flip flip_of(const sheets::Plan& plan) {
  if (plan.wishes.backs != game::BackPrinting::printer) return Flip::none;
  return plan.wishes.flip == game::FlipEdge::long_edge ? Flip::long_edge : Flip::short_edge;
}

std::string edge_words(const sheets::Plan& plan) {
  return plan.wishes.flip == game::FlipEdge::long_edge ? "long edge" : "short edge";
}

/// What the maker does with a sheet of this file, after which the slug is named.
enum class Step { both_sides, fronts_first, backs_second };

std::string next_words(const CardWork& work, Step step) {
  const sheets::Plan& plan = work.plan;
  if (plan.wishes.backs == game::BackPrinting::fold) {
    return "print at 100 %, cut out, fold at the ticks and glue";
  }
  if (plan.wishes.backs == game::BackPrinting::none) return "print at 100 %, then cut at the marks";
  if (step == Step::both_sides) {
    return fmt::format("print both sides at 100 %, flipped on the {}", edge_words(plan));
  }
  if (step == Step::backs_second) return "print at 100 % behind the fronts, then cut at the marks";
  const bool face_up = plan.wishes.pile == game::Pile::face_up;
  return fmt::format("print all at 100 %, {} on the {}, then print cards-backs.pdf",
                     face_up ? "turn the pile over" : "put the pile back", edge_words(plan));
}

Placement placement(const CardWork& work, const sheets::Placed& placed) {
  return {placed.is_back ? work.fronts + placed.drawing : placed.drawing, placed.map,
          placed.window};
}

Page sheet_page(const CardWork& work, const sheets::Form& form, Side side, Step step,
                const std::string& name) {
  const sheets::Plan& plan = work.plan;
  Page page;
  page.media = plan.grid.paper;
  page.label = name;
  for (const sheets::Placed& placed : form.placed) {
    page.placements.push_back(placement(work, placed));
    const bool first = page.placements.size() == 1;
    page.trim = first ? placed.trim : covering(page.trim, placed.trim);
    page.bleed = first ? placed.window : covering(page.bleed, placed.window);
  }
  const Rect whole{{}, page.media};
  if (form.placed.empty()) page.trim = page.bleed = whole;
  page.bleed = overlap(page.bleed, whole).value_or(whole);
  page.trim = overlap(page.trim, page.bleed).value_or(page.bleed);
  const sheets::Slug slug{work.game.title, name, stock_words(work.game.stock),
                          next_words(work, step), plan.printer};
  page.own = sheets::marks(plan, side, slug, house_family);
  if (plan.correction) {
    page.printed = side == Side::front ? plan.correction->front : plan.correction->back;
  }
  return page;
}

Page front_page(const CardWork& work, Step step, std::size_t index) {
  return sheet_page(work, work.plan.sheets[index].front, Side::front, step,
                    fmt::format("front {} of {}", index + 1, work.plan.sheets.size()));
}

Page back_page(const CardWork& work, Step step, std::size_t index) {
  return sheet_page(work, work.plan.sheets[index].back, Side::back, step,
                    fmt::format("back {} of {}", index + 1, work.plan.sheets.size()));
}

bool has_backs(const sheets::Plan& plan) {
  return plan.wishes.backs == game::BackPrinting::printer ||
         plan.wishes.backs == game::BackPrinting::by_hand;
}

Page single_page(const CardWork& work, int symbol, Rect bounds, std::string label) {
  const Vec corner = Point{} - bounds.at;
  Page page;
  page.media = bounds.size;
  page.bleed = Rect{{}, bounds.size};
  page.trim = Rect{Point{} + corner, work.game.card.size};
  page.placements.push_back({symbol, Affine::move(corner), page.bleed});
  page.label = std::move(label);
  return page;
}

Document duplex_document(const CardWork& work) {
  Document document = empty_document(work, "Card sheets", flip_of(work.plan));
  for (std::size_t i = 0; i < work.plan.sheets.size(); ++i) {
    document.pages.push_back(front_page(work, Step::both_sides, i));
    if (has_backs(work.plan)) document.pages.push_back(back_page(work, Step::both_sides, i));
  }
  return document;
}

Document fronts_document(const CardWork& work) {
  Document document = empty_document(work, "Card sheets, fronts", Flip::none);
  for (std::size_t i = 0; i < work.plan.sheets.size(); ++i) {
    document.pages.push_back(front_page(work, Step::fronts_first, i));
  }
  return document;
}

Document backs_document(const CardWork& work) {
  Document document = empty_document(work, "Card sheets, backs", Flip::none);
  if (work.plan.backs_interchangeable && !work.plan.sheets.empty()) {
    const std::size_t sheets = work.plan.sheets.size();
    document.pages.push_back(
        sheet_page(work, work.plan.sheets.front().back, Side::back, Step::backs_second,
                   sheets == 1 ? std::string("back, print once")
                               : fmt::format("back of every sheet: print {} copies", sheets)));
    return document;
  }
  for (const int index : sheets::backs_order(work.plan)) {
    document.pages.push_back(back_page(work, Step::backs_second, static_cast<std::size_t>(index)));
  }
  return document;
}

Document one_up_document(const CardWork& work, const std::vector<std::string>& ids,
                         const std::vector<int>& back_of) {
  Document document = empty_document(work, "Cards, one face a page", Flip::none);
  for (std::size_t i = 0; i < ids.size(); ++i) {
    document.pages.push_back(single_page(work, static_cast<int>(i), work.front_bounds, ids[i]));
    if (back_of[i] < 0) continue;
    document.pages.push_back(
        single_page(work, work.fronts + back_of[i], work.back_bounds, "back of " + ids[i]));
  }
  return document;
}

}  // namespace

std::string stock_words(const game::Stock& stock) {
  if (!stock.grammage) return stock.name;
  const std::string weight = fmt::format("{} g/m²", *stock.grammage);
  return stock.name.empty() ? weight : stock.name + ", " + weight;
}

std::vector<CardFile> card_files(const CardWork& work, const std::vector<std::string>& ids,
                                 const std::vector<int>& back_of) {
  std::vector<CardFile> files;
  files.push_back({"home/cards.pdf", false, [&work] { return duplex_document(work); }});
  if (has_backs(work.plan)) {
    files.push_back({"home/cards-fronts.pdf", false, [&work] { return fronts_document(work); }});
    files.push_back({"home/cards-backs.pdf", false, [&work] { return backs_document(work); }});
  }
  files.push_back({"shop/cards.pdf", true,
                   [&work, ids, back_of] { return one_up_document(work, ids, back_of); }});
  return files;
}

}  // namespace quoin::pack
