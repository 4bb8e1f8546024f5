#include "game/paper_classes.h"
#include "game/schema_tables.h"

namespace quoin::game {
namespace {

PropertyFacts rules_number(std::string_view key, double low, double high, std::string_view unit) {
  return {.section = "rules",
          .key = key,
          .type = ValueType::number,
          .low = low,
          .high = high,
          .unit = unit,
          .source = "common practice, no source"};
}

std::vector<PropertyFacts> rules_form_keys() {
  return {
      {.section = "rules",
       .key = "file",
       .type = ValueType::file,
       .fallback_words = "`rules.md`, when there is one",
       .example = R"(file = "rules.md")",
       .meaning = "The text of the rules, in Markdown. See *The text of the rules*."},
      {.section = "rules",
       .key = "form",
       .type = ValueType::word,
       .words = {"automatic", "flat", "half", "accordion", "eight-pages", "booklet"},
       .fallback = R"("automatic")",
       .example = R"(form = "accordion")",
       .meaning =
           "`flat`, a sheet that is not folded; `half`, folded once; `accordion`, folded to and "
           "fro; `eight-pages`, one sheet with a slit, folded to eight small pages and printed on "
           "one side; `booklet`, folded sheets in each other, stitched in the fold; `automatic`, "
           "the first of these with the fewest sheets and folds that the text goes into at a good "
           "size."},
      {.section = "rules",
       .key = "panels",
       .type = ValueType::whole,
       .low = 3,
       .high = 8,
       .fallback_words = "as many as the text needs",
       .example = "panels = 4",
       .meaning = "How many panels an accordion has. Only for `form = \"accordion\"`."},
      {.section = "rules",
       .key = "sides",
       .type = ValueType::word,
       .words = {"automatic", "one", "both"},
       .fallback = R"("automatic")",
       .example = R"(sides = "one")",
       .meaning = "Whether the rules are printed on one side of the paper or on both; `automatic`, "
                  "on both when the backs of the cards are printed on the back of their sheets."},
      with({.section = "rules",
            .key = "size",
            .type = ValueType::numbers,
            .low = 20,
            .high = 600,
            .fewest = 2,
            .most = 2,
            .unit = "mm"},
           "", "what lies loosely in the box; a page of the paper for `flat` without a box",
           "size = [60, 85]", "Width and height of the folded rules."),
  };
}

std::vector<PropertyFacts> rules_type_keys() {
  return {
      with(rules_number("type", 5, 24, "pt"), "", "8 or a little more, as the pages have room",
           "type = 8.5", "Type size of the text. Headings and tables follow it."),
      with(rules_number("minimum", 5, 24, "pt"), "6.5", "", "minimum = 7",
           "Where the text does not go into the form, it is set smaller, down to this."),
      with(rules_number("margin", 2, 60, "mm"), "",
           "a thirteenth of the width of the page, at least 4", "margin = 5",
           "How far the text stays off the edges and the folds."),
      {.section = "rules",
       .key = "columns",
       .type = ValueType::whole,
       .low = 1,
       .high = 4,
       .fallback_words = "as many as give lines of 45 to 75 letters",
       .example = "columns = 2",
       .meaning = "How many columns stand side by side on a page.",
       .source = "common practice, no source"},
      {.section = "rules",
       .key = "text",
       .type = ValueType::style,
       .fallback_words = "the house's type in black",
       .example = R"(text = "rule")",
       .meaning = "The style of `[styles]` whose font, colour and leading the text has. Its type "
                  "size is not used."},
      {.section = "rules",
       .key = "heading",
       .type = ValueType::style,
       .fallback_words = "bold type of the text's font",
       .example = R"(heading = "rule")",
       .meaning = "The style whose font, weight and colour the headings have."},
      {.section = "rules",
       .key = "accent",
       .type = ValueType::colour,
       .fallback_words = "the colour of the headings",
       .example = R"(accent = "ink")",
       .meaning = "The colour of fine rules, bullets and numbers."},
  };
}

std::vector<PropertyFacts> rules_paper_keys() {
  return {
      {.section = "rules",
       .key = "class",
       .type = ValueType::word,
       .words = paper_class_words(),
       .fallback = R"("uncoated")",
       .example = R"(class = "copy-paper")",
       .meaning = "What sort of paper the rules are printed on; with the grammage it tells how "
                  "thick they are when folded, which the box allows for.",
       .source = "ISO 534 for the reckoning"},
      {.section = "rules",
       .key = "grammage",
       .type = ValueType::number,
       .low = 20,
       .high = 400,
       .unit = "g/m²",
       .fallback = "90",
       .example = "grammage = 80",
       .meaning = "Weight of that paper, as it stands on the packet.",
       .source = "ISO 536"},
      {.section = "rules",
       .key = "caliper",
       .type = ValueType::number,
       .low = 0.02,
       .high = 1,
       .unit = "mm",
       .fallback_words = "from `grammage` and `class`",
       .example = "caliper = 0.1",
       .meaning = "Thickness of that paper. Measure a stack of ten sheets and divide.",
       .source = "ISO 534"},
  };
}

}  // namespace

std::vector<PropertyFacts> rules_keys() {
  std::vector<PropertyFacts> all;
  for (auto make : {rules_form_keys, rules_type_keys, rules_paper_keys}) {
    for (PropertyFacts& facts : make()) all.push_back(std::move(facts));
  }
  return all;
}

}  // namespace quoin::game
