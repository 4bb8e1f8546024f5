#include "game/schema_tables.h"

namespace quoin::game {
namespace {

std::vector<PropertyFacts> mat_form_keys() {
  return {
      {.section = "mat",
       .key = "size",
       .type = ValueType::size,
       .fallback = R"("A2")",
       .example = R"(size = "A2")",
       .meaning = "The finished mat: the name of a paper size, or width and height in millimetres, "
                  "`\"600x400\"`. Each side can be 100 to 2000 mm.",
       .source = "ISO 216"},
      {.section = "mat",
       .key = "orientation",
       .type = ValueType::word,
       .words = {"landscape", "portrait"},
       .fallback = R"("landscape")",
       .example = R"(orientation = "portrait")",
       .meaning = "Which way a size with a name lies. Width and height lie as you wrote them."},
      {.section = "mat",
       .key = "layout",
       .type = ValueType::file,
       .fallback = R"("layouts/mat.toml")",
       .example = R"(layout = "layouts/mat.toml")",
       .meaning = "What is drawn on the mat: pictures, words, shapes, and places for cards. See "
                  "*Places for cards*."},
      {.section = "mat",
       .key = "bleed",
       .type = ValueType::number,
       .low = 0,
       .high = 50,
       .unit = "mm",
       .fallback_words = "the bleed of the cards",
       .example = "bleed = 3",
       .meaning = "How far the drawing runs on past the edge at which the mat is cut: of paper its "
                  "own edge, of cloth the edge of the hem.",
       .source = "3 mm: common practice, no source"},
      {.section = "mat",
       .key = "safe",
       .type = ValueType::number,
       .low = 0,
       .high = 200,
       .unit = "mm",
       .fallback = "8",
       .example = "safe = 10",
       .meaning = "How far words and places keep away from the finished edge.",
       .source = "common practice, no source"},
      {.section = "mat",
       .key = "viewing-distance",
       .type = ValueType::number,
       .low = 200,
       .high = 3000,
       .unit = "mm",
       .fallback = "600",
       .example = "viewing-distance = 700",
       .meaning = "From a player's eye to the part of the mat that is to be read. The smallest "
                  "type and the pixels that a picture needs follow from it.",
       .source = "600 mm: common practice, no source"},
  };
}

std::vector<PropertyFacts> mat_stuff_keys() {
  return {
      {.section = "mat",
       .key = "material",
       .type = ValueType::word,
       .words = {"paper", "cloth"},
       .fallback = R"("paper")",
       .example = R"(material = "cloth")",
       .meaning = "What it is printed on. The shop's file of a mat of cloth is larger by what the "
                  "cloth shrinks, and has a hem round it."},
      {.section = "mat",
       .key = "hem",
       .type = ValueType::number,
       .low = 0,
       .high = 100,
       .unit = "mm",
       .fallback = "20",
       .example = "hem = 20",
       .meaning = "Of cloth: what is folded to the back along each edge.",
       .source = "common practice, no source"},
      {.section = "mat",
       .key = "shrinkage",
       .type = ValueType::numbers,
       .low = 0,
       .high = 20,
       .fewest = 2,
       .most = 2,
       .unit = "per cent",
       .fallback = "[0, 0]",
       .example = "shrinkage = [3, 2]",
       .meaning = "Of cloth: what it loses of its width and of its height when the print is fixed "
                  "and washed, in per cent. Print and wash a square of 200 mm and measure it, or "
                  "ask the shop. A part of length l is drawn l / (1 - s/100) long."},
      {.section = "mat",
       .key = "overlap",
       .type = ValueType::number,
       .low = 5,
       .high = 50,
       .unit = "mm",
       .fallback = "8",
       .example = "overlap = 10",
       .meaning = "Of the mat from your own printer, which is put together from the game's sheets: "
                  "how much two neighbours print both. Half of it is cut off the upper one; the "
                  "other half lies under the seam.",
       .source = "common practice, no source"},
  };
}

PropertyFacts place_number(std::string_view key, double low, double high, std::string_view unit) {
  return {.section = "place",
          .key = key,
          .type = ValueType::number,
          .low = low,
          .high = high,
          .unit = unit};
}

std::vector<PropertyFacts> place_pattern_keys() {
  PropertyFacts gap = place_number("gap", -500, 500, "mm");
  gap.fallback = "4";
  gap.example = "gap = 6";
  gap.meaning = "Between the lines round two neighbours.";
  PropertyFacts clearance = place_number("clearance", -50, 50, "mm");
  clearance.fallback = "1.5";
  clearance.example = "clearance = 2";
  clearance.meaning = "From the edge of a card to the line round its place.";
  clearance.source = "common practice, no source";
  PropertyFacts spread = place_number("spread", 0, 180, "degrees");
  spread.fallback = "40";
  spread.example = "spread = 60";
  spread.meaning = "Of a fan: between its first and its last card.";
  return {
      {.section = "place",
       .key = "arrange",
       .type = ValueType::word,
       .words = {"single", "pile", "row", "column", "grid", "fan"},
       .fallback = R"("single")",
       .example = R"(arrange = "row")",
       .meaning = "`single`, a place for one card; `pile`, for cards on top of each other; `row`, "
                  "`column`, `grid`, places beside each other; `fan`, for a hand laid open."},
      {.section = "place",
       .key = "count",
       .type = ValueType::whole,
       .low = 1,
       .high = 60,
       .fallback_words = "one for each of its suits, else 3",
       .example = "count = 7",
       .meaning = "How many places there are in a row, a column, a grid or a fan."},
      {.section = "place",
       .key = "columns",
       .type = ValueType::whole,
       .low = 1,
       .high = 60,
       .fallback = "3",
       .example = "columns = 2",
       .meaning = "Of a grid."},
      std::move(gap),
      std::move(clearance),
      {.section = "place",
       .key = "each",
       .type = ValueType::numbers,
       .low = 1,
       .high = 2000,
       .fewest = 2,
       .most = 2,
       .unit = "mm",
       .fallback_words = "the card and its clearance",
       .example = "each = [70, 95]",
       .meaning = "Width and height of one place, when it is not to follow the card."},
      {.section = "place",
       .key = "turned",
       .type = ValueType::flag,
       .fallback = "false",
       .example = "turned = true",
       .meaning = "`true`: cards lie with their long side level."},
      std::move(spread),
  };
}

std::vector<PropertyFacts> place_word_keys() {
  PropertyFacts first = place_number("first-number", 0, 1000, "");
  first.type = ValueType::whole;
  first.fallback = "1";
  first.example = "first-number = 0";
  first.meaning = "The number of the first place, with `numbered = true`.";
  return {
      {.section = "place",
       .key = "label",
       .type = ValueType::text,
       .example = R"(label = "Draw")",
       .meaning = "Words for the whole."},
      {.section = "place",
       .key = "label-place",
       .type = ValueType::word,
       .words = {"inside", "above", "below"},
       .fallback_words = "inside a single place and a pile, else above",
       .example = R"(label-place = "below")",
       .meaning = "Where `label` stands."},
      {.section = "place",
       .key = "labels",
       .type = ValueType::texts,
       .example = R"(labels = ["spring", "summer", "autumn", "winter"])",
       .meaning = "Words in each place, from the first on."},
      {.section = "place",
       .key = "numbered",
       .type = ValueType::flag,
       .fallback = "false",
       .example = "numbered = true",
       .meaning = "A number in the upper left corner of each place."},
      std::move(first),
      {.section = "place",
       .key = "suits",
       .type = ValueType::texts,
       .example = R"(suits = ["shell", "glass"])",
       .meaning = "The suit of each place, from the first on: it takes the suit's colour and its "
                  "icon."},
      {.section = "place",
       .key = "style",
       .type = ValueType::style,
       .example = R"(style = "rule")",
       .meaning = "The words' style, from `[styles]`."},
  };
}

std::vector<PropertyFacts> place_look_keys() {
  PropertyFacts radius = place_number("radius", 0, 500, "mm");
  radius.fallback_words = "the card's corner and the clearance";
  radius.example = "radius = 6";
  radius.meaning = "Of the corners of the line.";
  PropertyFacts size = place_number("icon-size", 0, 1, "");
  size.fallback = "0.5";
  size.example = "icon-size = 0.4";
  size.meaning = "The icon's part of the place's shorter side.";
  PropertyFacts strength = place_number("icon-opacity", 0, 1, "");
  strength.fallback = "0.45";
  strength.example = "icon-opacity = 0.8";
  strength.meaning = "How strongly the icon covers what is beneath.";
  PropertyFacts tint = place_number("tint", 0, 1, "");
  tint.fallback = "0.12";
  tint.example = "tint = 0.3";
  tint.meaning = "How strongly a place is filled with its suit's colour when `fill` is not given.";
  return {
      {.section = "place",
       .key = "fill",
       .type = ValueType::paint,
       .part = "gradient",
       .fallback_words = "a tint of the suit's colour, else none",
       .example = "fill = \"#ffffff40\"",
       .meaning = "What the place is filled with."},
      {.section = "place",
       .key = "stroke",
       .type = ValueType::table,
       .part = "stroke",
       .fallback_words = "0.6 mm in the suit's colour, else in that of the words",
       .example = "stroke = { colour = \"ink\", width = 0.8 }",
       .meaning = "The line round the place."},
      std::move(radius),
      std::move(tint),
      {.section = "place",
       .key = "icon",
       .type = ValueType::file,
       .words = {"none"},
       .fallback_words = "the suit's icon",
       .example = R"(icon = "art/icons/sea.svg")",
       .meaning = "A picture in the middle of each place, or `\"none\"`."},
      std::move(size),
      std::move(strength),
  };
}

std::vector<PropertyFacts> put_together(
    std::initializer_list<std::vector<PropertyFacts> (*)()> pages) {
  std::vector<PropertyFacts> all;
  for (const auto page : pages) {
    for (PropertyFacts& facts : page()) all.push_back(std::move(facts));
  }
  return all;
}

}  // namespace

std::vector<PropertyFacts> mat_keys() { return put_together({mat_form_keys, mat_stuff_keys}); }

std::vector<PropertyFacts> card_place_keys() {
  return put_together({place_pattern_keys, place_word_keys, place_look_keys});
}

}  // namespace quoin::game
