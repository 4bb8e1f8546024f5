#include <fmt/format.h>

#include "guide/chapters/wording.h"
#include "sheets/wording.h"

namespace quoin::guide {
namespace {

std::string amount(int sheets, int spares, const std::string& paper) {
  return fmt::format("**{}** of {}, and {} to spare", sheets::counted(sheets, "sheet"), paper,
                     spares);
}

/// Whether so many cards will be spoilt that no spares were reckoned: more sheets are no remedy.
bool is_past_help(const Making& making) {
  return making.tolerances.spares == 0 && making.tolerances.spoilt >= 1;
}

/// One for trying the cuts, and those that were reckoned, else what is usual.
int spare_cards(const Making& making) {
  return is_past_help(making) ? usual_spares(making.totals.sheets)
                              : making.tolerances.spare_sheets + 1;
}

std::string spares_words(const Making& making) {
  const making::Tolerances& all = making.tolerances;
  if (is_past_help(making)) {
    return fmt::format(
        "As the game is drawn now, some {:.0f} of {} will show a strange edge or be clipped, and "
        "spare sheets are no remedy: *quoin check* says what is.",
        all.spoilt, sheets::counted(making.totals.pieces, "card"));
  }
  if (all.spares == 0) {
    return "One spare sheet is for trying the cuts. Have more at hand when your printer jams now "
           "and then.";
  }
  return fmt::format(
      "One spare sheet is for trying the cuts. {} more of each sheet {} up, in 19 runs of 20, for "
      "the {} that cuts and backs may spoil. You can also leave them out, and print just the "
      "spoilt cards again at the end.",
      all.spares == 1 ? "One" : fmt::format("{}", all.spares), all.spares == 1 ? "makes" : "make",
      all.spoilt_at_most == 1 ? "card" : sheets::counted(all.spoilt_at_most, "card"));
}

Table paper_table(const Making& making) {
  const std::string paper = as_words(making.plan.wishes.paper_name);
  Table table;
  table.ticks = Table::Ticks::each_row;
  table.head = {"What", "How much", "For"};
  table.widths = {5, 5, 4};
  table.rows.push_back({sentence(card_stock_words(making.game)),
                        amount(making.totals.sheets, spare_cards(making), paper),
                        sheets::counted(making.totals.pieces, "card")});
  if (making.box.box != nullptr) {
    const int sheets = making.box.sheets->count();
    const std::string kind(making.box.box->kind->title);
    if (sheets > 0) {
      table.rows.push_back(
          {sentence(board_stock_words(making.game)), amount(sheets, 1, paper),
           making.decks > 1
               ? fmt::format("{} of this kind: {}", sheets::counted(making.decks, "box"), kind)
               : fmt::format("the box: {}", kind)});
    }
  }
  if (making.mat.tiling != nullptr) {
    const int sheets = static_cast<int>(making.mat.tiling->tiles.size());
    table.rows.push_back({"Paper of 100 to 160 g/m²", amount(sheets, 1, paper), "the mat"});
  }
  if (making.rules.leaflet != nullptr) {
    table.rows.push_back({with_capital(pack::rules_paper_words(*making.game.rules)),
                          amount(making.rules.sheets->count(), 1, paper),
                          making.decks > 1 ? fmt::format("{} copies of the rules", making.decks)
                                           : std::string("the rules")});
  }
  const bool box = making.box.box != nullptr;
  table.rows.push_back({"Plain paper", fmt::format("**{}**", box ? "2 sheets" : "1 sheet"),
                        box ? "a trial of the cards and of the box" : "a trial of the cards"});
  return table;
}

std::string cutting_tool(const Making& making) {
  const std::string knife = "a **knife with a new blade**, a metal rule and a cutting mat";
  switch (making.cutting.tool.kind) {
    case cut::ToolKind::guillotine:
      return "A **guillotine**, for which the cuts are told here. A trimmer will do, or " + knife +
             ".";
    case cut::ToolKind::rotary_trimmer:
      return "A **trimmer**, for which the cuts are told here. A guillotine will do, or " + knife +
             ".";
    case cut::ToolKind::knife_and_rule:
      break;
  }
  return sentence(knife) + " The cuts are told for them; a trimmer or a guillotine is quicker.";
}

TickList tools(const Making& making) {
  const bool box = making.box.box != nullptr;
  const bool folds = making.plan.wishes.backs == game::BackPrinting::fold;
  TickList list;
  list.items.push_back(
      "A printer, and ink or toner for it. It has to take your card: the weight it "
      "can feed stands in its papers.");
  list.items.push_back(cutting_tool(making));
  list.items.push_back(
      "A ruler with millimetres, to measure the bar that is printed on each sheet.");
  if (making.game.card.corner > Mm{0.2}) {
    list.items.push_back(fmt::format("A **corner punch** for a radius of {} or close to it.",
                                     sheets::millimetres(making.game.card.corner)));
  }
  if (box || folds) {
    list.items.push_back(
        "Something blunt to score with: a bone folder, a blunt needle, an empty ballpoint pen.");
    list.items.push_back("White glue or a glue stick, and a damp cloth for what comes out.");
  }
  if (making.mat.tiling != nullptr && !making.mat.tiling->is_one_sheet()) {
    list.items.push_back(
        "For the mat a long metal rule, and double-sided tape or a glue stick that does not "
        "cockle the paper.");
  }
  if (box) list.items.push_back("Scissors for the round parts, a peg or two to hold what dries.");
  return list;
}

}  // namespace

Chapter have_ready(const Making& making) {
  Chapter chapter;
  chapter.title = "What to have ready";
  chapter.blocks.push_back(Paragraph{
      "Lay it all out before you begin. Tick what is there; what is missing now would be missing "
      "with glue on your fingers."});
  chapter.blocks.push_back(Heading{"Paper"});
  chapter.blocks.push_back(paper_table(making));
  chapter.blocks.push_back(Paragraph{spares_words(making)});
  chapter.blocks.push_back(Heading{"Tools"});
  chapter.blocks.push_back(tools(making));
  return chapter;
}

}  // namespace quoin::guide
