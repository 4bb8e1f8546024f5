#include <fmt/format.h>

#include "guide/chapters/wording.h"
#include "guide/figures/figures.h"
#include "making/hand_work.h"
#include "sheets/wording.h"

namespace quoin::guide {
namespace {

void add_rules_printing(Chapter& chapter, const Making& making) {
  const rules::Leaflet& leaflet = *making.rules.leaflet;
  const pack::RulesSheets& sheets = *making.rules.sheets;
  chapter.blocks.push_back(Heading{"Print"});
  TickList list;
  std::string sides;
  if (leaflet.form.sides == rules::Form::Sides::both) {
    sides = making.plan.wishes.backs == game::BackPrinting::by_hand
                ? std::string(", its second page on the back of the first")
                : fmt::format(", on both sides, flipped on the {}", flip_edge_words(making.plan));
  }
  list.items.push_back(fmt::format(
      "**{}** at **100 %**{}, on {}: {} of {}.", as_words(making.files.rules), sides,
      pack::rules_paper_words(*making.game.rules), sheets::counted(sheets.count(), "sheet"),
      as_words(making.plan.wishes.paper_name)));
  if (!leaflet.whole_sheet) {
    list.items.push_back("The bar at its foot is 100 mm long. Is it?");
  }
  if (sheets.on_a_sheet > 1 && making.decks == 1) {
    list.items.push_back(
        fmt::format("There is room for {} on a sheet: print with *--decks* for several games.",
                    sheets.on_a_sheet));
  }
  chapter.blocks.push_back(std::move(list));
}

void add_rules_cutting(Chapter& chapter, const Making& making) {
  const rules::Form& form = making.rules.leaflet->form;
  chapter.blocks.push_back(Heading{form.folds.empty() ? "Cut" : "Cut and fold"});
  std::string words =
      fmt::format("Cut from tick to tick at the corners: {:.1f} x {:.1f} mm{}.",
                  form.leaf.width.value, form.leaf.height.value,
                  form.leaves > 1 ? fmt::format(", {} leaves", form.leaves) : std::string());
  if (!form.folds.empty()) {
    words +=
        " The ticks between them are for the folds: lay a rule from tick to tick and run something "
        "blunt along it, then the paper folds by itself.";
  }
  chapter.blocks.push_back(Paragraph{words});
  std::vector<std::string> cautions = making::blade_cautions();
  if (form.slit) {
    cautions.insert(cautions.begin(),
                    "The slit begins and ends within the sheet: begin at one end, cut towards the "
                    "middle, turn the sheet and cut from the other end. The hand that holds the "
                    "rule stays behind the blade.");
  }
  chapter.blocks.push_back(Caution{"Blades", cautions});
  if (making.rules.steps.empty()) return;
  Steps steps;
  for (const rules::FoldingStep& step : making.rules.steps) {
    steps.steps.push_back({sentence(step.words), rules_step(step)});
  }
  chapter.blocks.push_back(std::move(steps));
}

}  // namespace

Chapter fold_the_rules(const Making& making) {
  Chapter chapter;
  if (making.rules.leaflet == nullptr) return chapter;
  const rules::Leaflet& leaflet = *making.rules.leaflet;
  chapter.title = leaflet.form.folds.empty() ? "The rules" : "Fold the rules";
  chapter.opening = Chapter::Opening::here;
  chapter.blocks.push_back(Paragraph{fmt::format(
      "The rules are {}{}.", rules::form_words(leaflet.form),
      leaflet.form.folds.empty()
          ? std::string()
          : fmt::format(", {:.1f} x {:.1f} mm when folded and {:.1f} mm thick",
                        leaflet.form.folded.width.value, leaflet.form.folded.height.value,
                        leaflet.form.thickness.value))});
  add_rules_printing(chapter, making);
  if (leaflet.whole_sheet) return chapter;
  add_rules_cutting(chapter, making);
  if (making.box.box == nullptr) return chapter;
  chapter.blocks.push_back(Paragraph{
      "Lay the rules on the deck and push both into the box together. The box is made for their "
      "thickness: with rules on other paper, try it before you glue."});
  return chapter;
}

}  // namespace quoin::guide
