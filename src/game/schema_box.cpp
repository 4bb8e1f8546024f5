#include "game/paper_classes.h"
#include "game/schema_tables.h"

namespace quoin::game {
namespace {

/// A length of the box that follows from the deck when it is not given.
PropertyFacts box_length(std::string_view key, double low, double high) {
  return {.section = "box",
          .key = key,
          .type = ValueType::number,
          .low = low,
          .high = high,
          .unit = "mm",
          .source = "common practice, no source"};
}

PropertyFacts three_lengths(std::string_view key, double low, double high) {
  PropertyFacts facts = box_length(key, low, high);
  facts.type = ValueType::numbers;
  facts.fewest = facts.most = 3;
  facts.source = "";
  return facts;
}

std::vector<PropertyFacts> form_keys() {
  return {
      {.section = "box",
       .key = "kind",
       .type = ValueType::word,
       .words = {"tuck", "lid", "sleeve"},
       .fallback = R"("tuck")",
       .example = R"(kind = "tuck")",
       .meaning =
           "`tuck`, a carton in one piece whose ends are tucked in; `lid`, a base with a lid "
           "over it; `sleeve`, a tray that slides into a sleeve."},
      {.section = "box",
       .key = "ends",
       .type = ValueType::word,
       .words = {"reverse", "straight"},
       .fallback = R"("reverse")",
       .example = R"(ends = "straight")",
       .meaning =
           "`reverse`, the top is tucked in behind the front and the bottom behind the back; "
           "`straight`, both behind the front. Only for `kind = \"tuck\"`."},
      {.section = "box",
       .key = "locks",
       .type = ValueType::word,
       .words = {"slits", "none"},
       .fallback = R"("slits")",
       .example = R"(locks = "none")",
       .meaning =
           "`slits`, short cuts at the ends of the tuck crease that catch the dust flaps and "
           "keep the box shut; `none`, the tuck flap holds by itself. Only for `kind = "
           "\"tuck\"`."},
  };
}

std::vector<PropertyFacts> art_keys() {
  return {
      {.section = "box",
       .key = "layout",
       .type = ValueType::file,
       .fallback_words = "a box without print",
       .example = R"(layout = "layouts/box.toml")",
       .meaning =
           "The layout that is drawn on the panels of the box. See *What the box's elements say "
           "besides*."},
      {.section = "box",
       .key = "bleed",
       .type = ValueType::number,
       .low = 0,
       .high = 20,
       .unit = "mm",
       .fallback_words = "the bleed of the cards",
       .example = "bleed = 3",
       .meaning = "How far the box's art runs on past its cuts.",
       .source = "3 mm: common practice, no source"},
  };
}

std::vector<PropertyFacts> sheet_keys() {
  return {
      {.section = "box",
       .key = "parts",
       .type = ValueType::word,
       .words = {"automatic", "one", "two"},
       .fallback = R"("automatic")",
       .example = R"(parts = "two")",
       .meaning =
           "`one`, a net in one piece of board; `two`, two pieces with a second flap that joins "
           "them; `automatic`, two when one is too large for the paper of `[sheets]` and two are "
           "not. Only for `kind = \"tuck\"` and the sleeve of `kind = \"sleeve\"`."},
      {.section = "box",
       .key = "lines",
       .type = ValueType::word,
       .words = {"front", "back"},
       .fallback = R"("front")",
       .example = R"(lines = "back")",
       .meaning =
           "Where the sheets for your own printer have the lines to cut and score along. `front`, "
           "on the printed side, in the waste and where glue or a flap hides them: nothing has to "
           "meet through the paper. `back`, all lines in full on the other side."},
  };
}

std::vector<PropertyFacts> board_keys() {
  return {
      {.section = "box",
       .key = "class",
       .type = ValueType::word,
       .words = paper_class_words(),
       .fallback_words = "`solid-bleached-board`",
       .example = R"(class = "folding-boxboard")",
       .meaning =
           "What sort of board the box is made of; with the grammage it tells the thickness.",
       .source = "bulks of the classes: ISO 534 for the reckoning, DIN 19303 for chipboard, the "
                 "others common practice, no source"},
      {.section = "box",
       .key = "grammage",
       .type = ValueType::number,
       .low = 20,
       .high = 2000,
       .unit = "g/m²",
       .example = "grammage = 300",
       .meaning = "Weight of the board, as it stands on the packet.",
       .source = "ISO 536"},
      {.section = "box",
       .key = "caliper",
       .type = ValueType::number,
       .low = 0.02,
       .high = 5,
       .unit = "mm",
       .fallback_words = "from `grammage` and `class`; 0.4 when neither is given",
       .example = "caliper = 0.4",
       .meaning = "Thickness of the board. Measure a stack of ten sheets and divide.",
       .source = "ISO 534; 0.30 to 0.45 mm is common practice, no source"},
  };
}

std::vector<PropertyFacts> content_keys() {
  return {
      {.section = "box",
       .key = "pile",
       .type = ValueType::numbers,
       .low = 0.01,
       .high = 10000,
       .fewest = 2,
       .most = 2,
       .example = "pile = [60, 19.4]",
       .meaning =
           "A pile that you have measured: so many cards are so many millimetres high, lightly "
           "pressed. Better than any reckoning."},
      with(three_lengths("sleeves", 0.01, 1000), "", "cards without sleeves",
           "sleeves = [66, 91, 0.12]",
           "Width and height of the sleeves the cards are in, and how much thicker a card is with "
           "its "
           "sleeve."),
      with(box_length("leaflet", 0, 50), "0", "", "leaflet = 0.8",
           "Thickness of the folded rules that go into the box with the deck."),
      with(three_lengths("inside", 0.01, 2000), "", "the deck and its clearance",
           "inside = [64.5, 90.4, 17.2]",
           "The room between the walls, whatever the deck: for a box that exists."),
      with(three_lengths("clearance", 0, 50), "[0.6, 1, 0.6]", "", "clearance = [1, 1.5, 1]",
           "How much room the thickest deck has, in width, height and depth. Flaps that lie inside "
           "are "
           "reckoned in."),
      with(box_length("slack", 0, 100), "3", "", "slack = 2",
           "How much room the thinnest deck may have before Quoin says that it rattles."),
  };
}

std::vector<PropertyFacts> flap_keys() {
  return {
      with(box_length("glue-flap", 1, 100), "12", "", "glue-flap = 10",
           "Width of the flap, or of the corner tabs, that are glued; 10 to 15 for a small box."),
      with(box_length("tuck", 1, 200), "", "12 to 18 with the depth of the box", "tuck = 15",
           "How deep the tuck flap reaches into the box."),
      with(box_length("tuck-play", 0, 10), "0.3", "", "tuck-play = 0.4",
           "How much shorter the lid is than it could be, so that the tuck flap slides in."),
      with(box_length("dust-flap", 1, 500), "", "as long as the box is deep, at most 22",
           "dust-flap = 18", "How far the side flaps reach in under the lid."),
      with(box_length("notch", 0, 100), "", "9, or less on a narrow box", "notch = 8",
           "Radius of the half-round thumb notch; 0 for none."),
      with(box_length("corner", 0, 100), "", "a third of the tuck flap", "corner = 5",
           "Radius of the tuck flap's corners; at most four fifths of its depth are used."),
      with(box_length("lid-height", 1, 1000), "", "two thirds of the base, at least 10",
           "lid-height = 15",
           "How far the lid comes down over the base. Only for `kind = \"lid\"`."),
      with(box_length("fit", 0, 10), "0.3", "", "fit = 0.4",
           "Air on each side between a lid and its base, or a tray and its sleeve."),
  };
}

}  // namespace

PropertyFacts with(PropertyFacts facts, std::string_view fallback, std::string_view fallback_words,
                   std::string_view example, std::string_view meaning) {
  facts.fallback = fallback;
  facts.fallback_words = fallback_words;
  facts.example = example;
  facts.meaning = meaning;
  return facts;
}

std::vector<PropertyFacts> box_keys() {
  std::vector<PropertyFacts> all;
  for (auto make : {form_keys, art_keys, sheet_keys, board_keys, content_keys, flap_keys}) {
    for (PropertyFacts& facts : make()) all.push_back(std::move(facts));
  }
  return all;
}

}  // namespace quoin::game
