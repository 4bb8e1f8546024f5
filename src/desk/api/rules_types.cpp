#include "desk/api/rules_types.h"

namespace quoin::desk {

std::vector<ApiType> rules_types() {
  return {
      {"RulesKind", "", {}, "'flat' | 'half' | 'accordion' | 'eight-pages' | 'booklet'"},
      {"RulesSize", "Millimetres.", {{"width", "number", ""}, {"height", "number", ""}}},
      {"RulesOption",
       "A way in which the rules could be folded.",
       {{"kind", "RulesKind", ""},
        {"panels", "number", "side by side on a leaf"},
        {"leaves", "number", ""},
        {"pages", "number", "it has"},
        {"needed", "number", "the text takes; 0 when it is not known"},
        {"verdict", "'chosen' | 'too-few-pages' | 'more-work' | 'larger-than-sheet'", ""},
        {"words", "string", ""}}},
      {"RulesForm",
       "How the rules are set and folded.",
       {{"kind", "RulesKind", ""},
        {"panels", "number", ""},
        {"leaves", "number", ""},
        {"bothSides", "boolean", ""},
        {"words", "string", "`an accordion of 4 panels`"},
        {"pages", "number", "it has"},
        {"shown", "number", "pages to be seen: more when the text does not go on those it has"},
        {"filled", "number", "pages with words"},
        {"page", "RulesSize", "of one page"},
        {"folded", "RulesSize", ""},
        {"thickness", "number", "folded, mm"},
        {"type", "number", "points"},
        {"sheets", "number", "of paper for one copy"},
        {"sheet", "RulesSize | null", "of the first sheet as it is printed; null: none takes it"},
        {"why", "string[]", ""},
        {"options", "RulesOption[]", "the least work first"},
        {"steps", "string[]", "of the folding, each with a picture"}}},
      {"RulesCount",
       "A number that the text prints.",
       {{"written", "string", "between the braces"}, {"cards", "number", ""}}},
      {"RulesInfo",
       "The rules of the game at one moment.",
       {{"revision", "number", ""},
        {"file", "string", "of their text, `rules.md`"},
        {"text", "string | null", "null: there are none yet"},
        {"asked", "Record<string, Json>",
         "[rules] by its keys: form, panels, type; null: as usual"},
        {"form", "RulesForm | null", "null: nothing can be set, and the findings say why"},
        {"counts", "RulesCount[]", ""},
        {"symbols", "string[]", "that the text may show"},
        {"findings", "Finding[]", ""}}},
  };
}

std::vector<ApiRoute> rules_routes() {
  return {
      {"GET", "/api/rules", "", "RulesInfo", ""},
      {"GET", "/api/rules/page/N.png", "", "image/png", "w: pixels; r: the revision it is for"},
      {"GET", "/api/rules/step/N.png", "", "image/png", "the same: a step of the folding"},
      {"GET", "/api/rules/sheet/SIDE.png", "", "image/png",
       "the same: front or back of the first sheet"},
      {"POST", "/api/rules/begin", "", "EditAnswer", "writes a text to start from"},
  };
}

}  // namespace quoin::desk
