#include "game/schema_tables.h"

namespace quoin::game {
namespace {

constexpr ValueType text = ValueType::text;
constexpr ValueType word = ValueType::word;
constexpr ValueType number = ValueType::number;
constexpr ValueType flag = ValueType::flag;
constexpr ValueType file = ValueType::file;
constexpr ValueType numbers = ValueType::numbers;

std::vector<PropertyFacts> file_keys() {
  return {
      {.section = "layout", .key = "use", .type = ValueType::texts,
       .example = R"(use = ["frame.toml"])",
       .meaning = "Layouts whose elements this one takes over, beneath its own. Paths are seen "
                  "from this file. To change one of their elements, write an element with the same "
                  "id and only the keys that differ: it keeps its place and its other keys."},
      {.section = "layout", .key = "size", .type = word, .words = {"card"},
       .fallback = R"("card")", .example = R"(size = "card")",
       .meaning = "What the layout is drawn on."},
  };
}

std::vector<PropertyFacts> place_keys() {
  return {
      {.section = "element", .key = "id", .type = text, .example = R"(id = "title")",
       .meaning = "A name of your own; each element of a layout has another.",
       .presence = "required"},
      {.section = "element", .key = "kind", .type = word,
       .words = {"picture", "text", "shape", "repeat", "group"}, .example = R"(kind = "text")",
       .meaning = "What it is. An element that changes one of a used layout may leave it out.",
       .presence = "required"},
      {.section = "element", .key = "when", .type = ValueType::conditions,
       .example = R"(when = { suit = ["glass", "rope"] })",
       .meaning = "The cards on which it is drawn; left out, on all. See *Conditions*."},
      {.section = "element", .key = "unless", .type = ValueType::conditions,
       .example = R"(unless = { text = "" })", .meaning = "The cards on which it is not drawn."},
      {.section = "element", .key = "at", .type = numbers, .low = -5000, .high = 5000,
       .fewest = 2, .most = 2, .unit = "mm", .fallback = "[0, 0]", .example = "at = [5, 6]",
       .meaning = "The top left corner of the element's box, to the right and down from the top "
                  "left corner of the finished card (in a group: of the group's box)."},
      {.section = "element", .key = "size", .type = numbers, .low = 0, .high = 5000, .fewest = 2,
       .most = 2, .unit = "mm", .fallback_words = "from `at` to the card's far corner",
       .example = "size = [53.5, 8]", .meaning = "Width and height of the box."},
      {.section = "element", .key = "inset", .type = ValueType::edges, .words = {"bleed"},
       .low = -5000, .high = 5000, .unit = "mm", .example = "inset = 5",
       .meaning = "Instead of `at` and `size`: the box is the card, made smaller by this much all "
                  "round, or by four numbers for top, right, bottom and left. A negative number "
                  "makes it larger; `\"bleed\"` makes it reach to the end of the bleed, as a "
                  "background must."},
      {.section = "element", .key = "nudge", .type = numbers, .low = -5000, .high = 5000,
       .fewest = 2, .most = 2, .unit = "mm", .fallback = "[0, 0]", .example = "nudge = [0, 0.5]",
       .meaning = "Moves the box, to the right and down."},
      {.section = "element", .key = "rotation", .type = number, .low = -360, .high = 360,
       .unit = "degrees", .fallback = "0", .example = "rotation = 180",
       .meaning = "Turns it clockwise about the middle of its box."},
      {.section = "element", .key = "opacity", .type = number, .low = 0, .high = 1,
       .fallback = "1", .example = "opacity = 0.5",
       .meaning = "0 is not to be seen, 1 covers all beneath."},
      {.section = "element", .key = "clip", .type = ValueType::table,
       .words = {"none", "rectangle", "rounded", "ellipse"}, .part = "clip",
       .fallback = R"("none")", .example = R"(clip = "rounded")",
       .meaning = "Cuts off what reaches past the box, or past a shape in it."},
      {.section = "element", .key = "clip-radius", .type = number, .low = 0, .high = 5000,
       .unit = "mm", .fallback = "2", .example = "clip-radius = 2",
       .meaning = "The corners of `clip = \"rounded\"`."},
      {.section = "element", .key = "shadow", .type = ValueType::table, .part = "shadow",
       .example = R"(shadow = { colour = "#0006", offset = [0.4, 0.6], blur = 0.8 })",
       .meaning = "A shadow beneath the element."},
      {.section = "element", .key = "outline", .type = ValueType::table, .part = "outline",
       .example = R"(outline = { colour = "white", width = 0.4 })",
       .meaning = "A line round the whole element, beneath it."},
      {.section = "element", .key = "role", .type = word,
       .words = {"art", "border", "text", "decoration"}, .example = R"(role = "decoration")",
       .meaning = "What it is to the player, for the checks: a `decoration` may leave the safe "
                  "area without a warning, a `border` is looked at for whether it will look even."},
  };
}

std::vector<PropertyFacts> picture_keys() {
  return {
      {.section = "picture", .key = "picture", .type = file, .example = R"(picture = "art/{art}")",
       .meaning = "The picture's file: SVG, PNG, JPEG, WebP or TIFF.", .presence = "required"},
      {.section = "picture", .key = "fit", .type = word, .words = {"contain", "cover", "stretch"},
       .fallback = R"("contain")", .example = R"(fit = "cover")",
       .meaning = "`contain` shows the whole picture; `cover` fills the box and crops the rest; "
                  "`stretch` fills the box and changes the picture's proportions."},
      {.section = "picture", .key = "focus", .type = numbers, .low = 0, .high = 1, .fewest = 2,
       .most = 2, .fallback = "[0.5, 0.5]", .example = "focus = [0.5, 0.2]",
       .meaning = "Which point of the picture stays in view when `cover` crops it: fractions of "
                  "its width and height from the top left."},
  };
}

std::vector<PropertyFacts> text_keys() {
  return {
      {.section = "text", .key = "text", .type = text, .example = R"(text = "{text}")",
       .meaning = "The words.", .presence = "required"},
      {.section = "text", .key = "style", .type = ValueType::style,
       .example = R"(style = "rule")", .meaning = "A style from `[styles]`."},
  };
}

std::vector<PropertyFacts> type_keys() {
  return {
      {.section = "type", .key = "font", .type = text, .fallback = R"("Noto Sans")",
       .example = R"(font = "Noto Sans")", .meaning = "The family's name."},
      {.section = "type", .key = "weight", .type = number, .words = {"bold"}, .low = 1,
       .high = 1000, .fallback = "400", .example = R"(weight = "bold")",
       .meaning = "How heavy: 400 is regular, 700 or `bold` is bold.",
       .source = "OpenType 1.9, OS/2 table, usWeightClass"},
      {.section = "type", .key = "italic", .type = flag, .fallback = "false",
       .example = "italic = true", .meaning = "Italic letters."},
      {.section = "type", .key = "type", .type = number, .low = 0.5, .high = 2000, .unit = "pt",
       .fallback = "8.5", .example = "type = 8.5",
       .meaning = "Type size in points, the one measure that is not in millimetres: 1 pt is 1/72 "
                  "inch, 0.353 mm."},
      {.section = "type", .key = "minimum", .type = number, .low = 0.5, .high = 2000, .unit = "pt",
       .fallback_words = "the type size: no shrinking", .example = "minimum = 6.5",
       .meaning = "A text that is too long for its box is set smaller, down to this size."},
      {.section = "type", .key = "colour", .type = ValueType::paint, .part = "gradient",
       .fallback = R"("black")", .example = R"(colour = "ink")",
       .meaning = "Colour of the letters, or a gradient."},
      {.section = "type", .key = "align", .type = word,
       .words = {"left", "centre", "right", "justify", "start", "end"}, .fallback = R"("left")",
       .example = R"(align = "centre")",
       .meaning = "How lines lie in the box; `start` and `end` follow the direction of the "
                  "writing."},
      {.section = "type", .key = "valign", .type = word, .words = {"top", "middle", "bottom"},
       .fallback = R"("top")", .example = R"(valign = "middle")",
       .meaning = "Where the whole text stands in the box."},
      {.section = "type", .key = "leading", .type = number, .low = 0.1, .high = 20,
       .fallback = "1.25", .example = "leading = 1.3",
       .meaning = "From line to line; 1 is the type size."},
      {.section = "type", .key = "spacing", .type = number, .low = -1000, .high = 10000,
       .unit = "thousandths of the type size", .fallback = "0", .example = "spacing = 40",
       .meaning = "Extra space between letters."},
      {.section = "type", .key = "hyphenate", .type = flag, .fallback = "false",
       .example = "hyphenate = true", .meaning = "Whether long words may be divided."},
      {.section = "type", .key = "case", .type = word, .words = {"as-is", "upper", "small-caps"},
       .fallback = R"("as-is")", .example = R"(case = "small-caps")",
       .meaning = "Sets the words in capitals or small capitals."},
      {.section = "type", .key = "direction", .type = word,
       .words = {"auto", "left-to-right", "right-to-left"}, .fallback = R"("auto")",
       .example = R"(direction = "right-to-left")",
       .meaning = "Direction of the writing; `auto` sees it from the letters."},
      {.section = "type", .key = "language", .type = text,
       .fallback_words = "the language of the game", .example = R"(language = "fr")",
       .meaning = "Language of this text, when it is another than the game's."},
      {.section = "type", .key = "markup", .type = flag, .fallback = "true",
       .example = "markup = false",
       .meaning = "Whether `*italic*`, `**bold**` and `[symbol]` are read; a backslash before a "
                  "mark prints the mark itself."},
      {.section = "type", .key = "paragraph", .type = number, .low = 0, .high = 20,
       .unit = "times the type size", .fallback = "0", .example = "paragraph = 0.5",
       .meaning = "Extra space between paragraphs."},
      {.section = "type", .key = "strokes", .type = ValueType::tables, .part = "stroke",
       .example = R"(strokes = [{ colour = "white", width = 0.6 }])",
       .meaning = "Lines round the letters, beneath them, the outermost first."},
  };
}

std::vector<PropertyFacts> shape_keys() {
  return {
      {.section = "shape", .key = "shape", .type = word,
       .words = {"rectangle", "ellipse", "polygon", "path"}, .fallback = R"("rectangle")",
       .example = R"(shape = "ellipse")", .meaning = "What is drawn in the box."},
      {.section = "shape", .key = "radius", .type = number, .low = 0, .high = 5000, .unit = "mm",
       .fallback = "0", .example = "radius = 2", .meaning = "Rounded corners of a rectangle."},
      {.section = "shape", .key = "sides", .type = ValueType::whole, .low = 3, .high = 100,
       .fallback = "6", .example = "sides = 6", .meaning = "Of a polygon with equal sides."},
      {.section = "shape", .key = "points", .type = ValueType::number_lists, .low = -100,
       .high = 100, .fewest = 2, .most = 2, .example = "points = [[0, 0], [1, 0], [0.5, 1]]",
       .meaning = "Instead of `sides`: the corners of a polygon, as fractions of the box's width "
                  "and height."},
      {.section = "shape", .key = "path", .type = text, .example = R"(path = "M0 0 L10 0 L5 8 Z")",
       .meaning = "Of `shape = \"path\"`: SVG path data in millimetres from the top left of the "
                  "box.",
       .source = "SVG 1.1, chapter 8"},
      {.section = "shape", .key = "fill", .type = ValueType::paint, .part = "gradient",
       .fallback = R"("black")", .example = R"(fill = "{suit.colour}")",
       .meaning = "A colour, `\"none\"`, or a gradient."},
      {.section = "shape", .key = "stroke", .type = ValueType::table, .part = "stroke",
       .example = R"(stroke = { colour = "ink", width = 0.3 })", .meaning = "The line round it."},
  };
}

std::vector<PropertyFacts> repeat_keys() {
  return {
      {.section = "repeat", .key = "symbol", .type = ValueType::symbol,
       .example = R"(symbol = "shell")", .meaning = "The symbol that is repeated."},
      {.section = "repeat", .key = "picture", .type = file,
       .example = R"(picture = "{suit.icon}")", .meaning = "Instead of `symbol`: a picture."},
      {.section = "repeat", .key = "count", .type = ValueType::whole, .low = 0, .high = 1000,
       .fallback_words = "1, or as many as there are `places`", .example = R"(count = "{rank}")",
       .meaning = "How many."},
      {.section = "repeat", .key = "arrange", .type = word,
       .words = {"row", "column", "grid", "ring", "places"}, .fallback = R"("row")",
       .example = R"(arrange = "grid")", .meaning = "How they are laid out in the box."},
      {.section = "repeat", .key = "each", .type = numbers, .low = 0, .high = 5000, .fewest = 2,
       .most = 2, .unit = "mm", .fallback = "[6, 6]", .example = "each = [6, 6]",
       .meaning = "Width and height of one."},
      {.section = "repeat", .key = "gap", .type = number, .low = -5000, .high = 5000, .unit = "mm",
       .fallback = "1", .example = "gap = 1", .meaning = "Between neighbours."},
      {.section = "repeat", .key = "columns", .type = ValueType::whole, .low = 1, .high = 1000,
       .fallback = "3", .example = "columns = 3", .meaning = "Of a grid."},
      {.section = "repeat", .key = "places", .type = ValueType::number_lists, .low = -360,
       .high = 360, .fewest = 2, .most = 3,
       .example = "places = [[0.25, 0.2], [0.75, 0.8, 180]]",
       .meaning = "Of `arrange = \"places\"`: the middle of each as fractions of the box; a third "
                  "number turns it clockwise, in degrees. The first `count` are used."},
      {.section = "repeat", .key = "upright", .type = flag, .fallback = "true",
       .example = "upright = false",
       .meaning = "In a ring: `false` turns each with its head outwards."},
      {.section = "repeat", .key = "align", .type = word, .words = {"left", "centre", "right"},
       .fallback = R"("centre")", .example = R"(align = "left")",
       .meaning = "Where the whole lies in the box."},
      {.section = "repeat", .key = "valign", .type = word, .words = {"top", "middle", "bottom"},
       .fallback = R"("middle")", .example = R"(valign = "top")",
       .meaning = "Where the whole stands in the box."},
  };
}

}  // namespace

std::vector<PropertyFacts> layout_keys() {
  std::vector<PropertyFacts> all;
  for (auto make : {file_keys, place_keys, picture_keys, text_keys, type_keys, shape_keys,
                    repeat_keys, layout_part_keys}) {
    for (PropertyFacts& facts : make()) all.push_back(std::move(facts));
  }
  return all;
}

}  // namespace quoin::game
