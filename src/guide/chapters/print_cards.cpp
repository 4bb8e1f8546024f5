#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "guide/chapters/wording.h"
#include "guide/figures/figures.h"
#include "sheets/printable.h"
#include "sheets/wording.h"

namespace quoin::guide {
namespace {

using game::BackPrinting;

std::string sides_setting(const sheets::Plan& plan) {
  if (plan.wishes.backs == BackPrinting::printer) {
    return fmt::format("Both sides, **flipped on the {}**.", flip_edge_words(plan));
  }
  return "One side only.";
}

TickList settings(const Making& making) {
  const sheets::Plan& plan = making.plan;
  const bool level = plan.grid.paper.width > plan.grid.paper.height;
  TickList list;
  list.items.push_back(fmt::format("Paper: **{}**, {}.", as_words(plan.wishes.paper_name),
                                   level ? "lying (landscape)" : "upright (portrait)"));
  list.items.push_back(
      "Size: **actual size**, or **100 %**. Never *fit to page*: it shrinks "
      "every card.");
  list.items.push_back(sides_setting(plan));
  list.items.push_back(
      "Kind of paper: the heaviest that the printer offers. Feed card by hand, on the "
      "way through the printer that bends it least.");
  list.items.push_back("Best quality, in colour.");
  return list;
}

void add_bar(Chapter& chapter) {
  chapter.blocks.push_back(Heading{"The bar"});
  chapter.blocks.push_back(Paragraph{
      "On every sheet there is a bar to measure, like this one. From the middle of its first tick "
      "to "
      "the middle of its last it is **100 mm** long. Is it 97? Then the printer has made the page "
      "smaller, and the cards with it: find the setting, and print again."});
  chapter.blocks.push_back(
      Picture{true_bar(),
              "Measure this one too: it tells whether this guide was printed at its true size."});
}

std::string turned_words(const Making& making) {
  const sheets::Plan& plan = making.plan;
  const bool upright = sheets::behind(plan.grid.paper, plan.wishes.flip).a < 0;
  const std::string way = upright ? "like the page of a book, about an upright axis"
                                  : "like the page of a wall calendar, about a level axis";
  return fmt::format("The sheet turns {}: that is what *flipped on the {}* means for this paper.",
                     way, flip_edge_words(plan));
}

void add_flip(Chapter& chapter, const Making& making) {
  chapter.blocks.push_back(Heading{"Which way the sheet turns"});
  chapter.blocks.push_back(Paragraph{turned_words(making)});
  chapter.blocks.push_back(
      Picture{turned_sheet(making),
              "The first sheet, front and back, as each side is seen when you look at it. Equal "
              "letters lie behind each other."});
}

/// How a pile goes back into the printer for its backs.
void add_by_hand(Chapter& chapter, const Making& making) {
  const sheets::Plan& plan = making.plan;
  const bool face_up = plan.wishes.pile == game::Pile::face_up;
  chapter.blocks.push_back(Heading{"Fronts first, then backs"});
  TickList list;
  list.items.push_back(fmt::format("Print all of **{}**.", making.files.fronts));
  list.items.push_back(fmt::format(
      "{} and put it back, turned about the {} as the picture shows. Try it with one sheet of "
      "plain "
      "paper and a pencil cross on it: trays differ.",
      face_up ? "Turn the whole pile over" : "Take the pile as it lies, printed side down",
      flip_edge_words(plan)));
  list.items.push_back(
      plan.backs_interchangeable
          ? fmt::format(
                "Print **{}** behind them, {}: all backs are alike.", making.files.backs,
                making.totals.sheets == 1 ? "once" : fmt::format("{} copies", making.totals.sheets))
          : fmt::format("Print **{}** behind them. Its pages stand in the order in which the "
                        "pile is drawn in.",
                        making.files.backs));
  chapter.blocks.push_back(std::move(list));
}

std::string far_words(const BackRoom& room) {
  const std::string limit = sheets::millimetres(room.most);
  switch (room.shows) {
    case BackRoom::Shows::nothing:
      return fmt::format(
          "**More than {}.** It would hardly show on these backs, but the way the sheet is drawn "
          "in "
          "is not right.",
          limit);
    case BackRoom::Shows::white_edge:
      return fmt::format(
          "**More than {}.** Past what the bleed hides: a strange edge shows on the backs.", limit);
    case BackRoom::Shows::crooked_border:
      break;
  }
  return fmt::format("**More than {}.** The border of the backs looks crooked.", limit);
}

void add_against_the_light(Chapter& chapter, const Making& making) {
  BackRoom room = back_room(making);
  if (room.shows == BackRoom::Shows::nothing) room.most = Mm{3};
  const Mm half{std::max(0.2, std::round(room.most.value * 5) / 10)};
  constexpr Mm widest{3.2};  // what the picture has room for
  chapter.blocks.push_back(Heading{"Hold it against a lamp"});
  chapter.blocks.push_back(Paragraph{
      "The round targets at the edge of the sheet are printed at the same places on both sides. "
      "Through the paper you see how far apart the two sides are. Their arms are 2 mm long from "
      "the middle."});
  Steps steps;
  steps.across = 3;
  steps.numbers = Steps::Numbers::plain;
  steps.steps.push_back({"**Spot on.** Seldom on a printer at home.", targets_apart(Mm{0.1})});
  steps.steps.push_back(
      {fmt::format("**{} apart.** Good: nobody will see it.", sheets::millimetres(half)),
       targets_apart(std::min(half, widest))});
  steps.steps.push_back({far_words(room) + " Set the tray's guides closer.",
                         targets_apart(std::min(room.most + Mm{0.5}, widest))});
  chapter.blocks.push_back(std::move(steps));
}

void add_trial(Chapter& chapter, const Making& making) {
  const bool backs = sheets::has_back_forms(making.plan.wishes);
  chapter.blocks.push_back(Heading{"One sheet first, on plain paper"});
  TickList list;
  list.items.push_back("The bar is **100 mm** long, to half a millimetre.");
  if (backs) {
    const BackRoom room = back_room(making);
    list.items.push_back(
        room.shows == BackRoom::Shows::nothing
            ? std::string("Held against a lamp, the targets of both sides lie over each other.")
            : fmt::format("Held against a lamp, the targets of both sides are no more than **{}** "
                          "apart, at all edges of the sheet.",
                          sheets::millimetres(room.most)));
  }
  list.items.push_back(
      "No line or stripe runs through the colours; what should be white is white.");
  list.items.push_back("Nothing of a card is missing at the edges of the sheet.");
  chapter.blocks.push_back(std::move(list));
}

void add_the_rest(Chapter& chapter, const Making& making) {
  const int sheets = making.totals.sheets;
  const bool both = making.plan.wishes.backs == BackPrinting::printer;
  chapter.blocks.push_back(Heading{"Now the rest, on card"});
  chapter.blocks.push_back(Paragraph{fmt::format(
      "Print {}: {}.{} Let the sheets lie side by side until the ink does not smear "
      "any more; with an "
      "ink-jet printer an hour is safe.",
      making.plan.wishes.backs == BackPrinting::by_hand ? "the files in this order"
                                                        : "**" + making.files.cards + "**",
      sheets == 1 ? "it is one sheet" : fmt::format("{} sheets", sheets),
      both ? fmt::format(" Its pages are front 1, back 1{}.",
                         sheets > 1 ? ", front 2, back 2 and so on" : "")
           : "")});
}

}  // namespace

Chapter print_cards(const Making& making) {
  const sheets::Plan& plan = making.plan;
  Chapter chapter;
  chapter.title = "Print the cards";
  chapter.opening = Chapter::Opening::here;
  chapter.blocks.push_back(Paragraph{fmt::format(
      "The sheets are in **{}**. Open {} in a program that shows PDF files, and choose these "
      "settings in the window for printing.",
      plan.wishes.backs == BackPrinting::by_hand
          ? making.files.fronts + "** and **" + making.files.backs
          : making.files.cards,
      plan.wishes.backs == BackPrinting::by_hand ? "them" : "it")});
  chapter.blocks.push_back(settings(making));
  if (making.printer != nullptr) add_printer(chapter, making);
  add_bar(chapter);
  if (sheets::has_back_forms(plan.wishes)) add_flip(chapter, making);
  if (plan.wishes.backs == BackPrinting::by_hand) add_by_hand(chapter, making);
  add_trial(chapter, making);
  if (sheets::has_back_forms(plan.wishes)) add_against_the_light(chapter, making);
  if (making.printer == nullptr) add_printer(chapter, making);
  add_the_rest(chapter, making);
  return chapter;
}

}  // namespace quoin::guide
