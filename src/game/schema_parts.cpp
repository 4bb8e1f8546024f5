#include "game/schema_tables.h"

namespace quoin::game {
namespace {

constexpr ValueType number = ValueType::number;
constexpr ValueType numbers = ValueType::numbers;

std::vector<PropertyFacts> line_keys() {
  return {
      {.section = "stroke",
       .key = "colour",
       .type = ValueType::paint,
       .part = "gradient",
       .fallback = R"("black")",
       .example = R"(colour = "ink")",
       .meaning = "Colour of the line."},
      {.section = "stroke",
       .key = "width",
       .type = number,
       .low = 0,
       .high = 1000,
       .unit = "mm",
       .fallback = "0.25",
       .example = "width = 0.3",
       .meaning = "Its thickness."},
      {.section = "stroke",
       .key = "dash",
       .type = numbers,
       .low = 0,
       .high = 1000,
       .fewest = 0,
       .most = 16,
       .unit = "mm",
       .example = "dash = [1, 0.5]",
       .meaning = "Lengths of dash and gap, in turn."},
      {.section = "stroke",
       .key = "join",
       .type = ValueType::word,
       .words = {"mitre", "round", "bevel"},
       .fallback = R"("round")",
       .example = R"(join = "mitre")",
       .meaning = "How corners look."},
      {.section = "stroke",
       .key = "cap",
       .type = ValueType::word,
       .words = {"butt", "round", "square"},
       .fallback = R"("butt")",
       .example = R"(cap = "round")",
       .meaning = "How ends look."},
      {.section = "stroke",
       .key = "align",
       .type = ValueType::word,
       .words = {"centre", "inside", "outside"},
       .fallback = R"("centre")",
       .example = R"(align = "inside")",
       .meaning = "Whether the line lies on the edge, within it or round it. Only for shapes."},
  };
}

std::vector<PropertyFacts> effect_keys() {
  return {
      {.section = "shadow",
       .key = "colour",
       .type = ValueType::colour,
       .fallback = R"("#0006")",
       .example = R"(colour = "#0006")",
       .meaning = "Its colour; the last digit says how much it covers."},
      {.section = "shadow",
       .key = "offset",
       .type = numbers,
       .low = -1000,
       .high = 1000,
       .fewest = 2,
       .most = 2,
       .unit = "mm",
       .fallback = "[0.4, 0.6]",
       .example = "offset = [0.4, 0.6]",
       .meaning = "How far it falls, to the right and down."},
      {.section = "shadow",
       .key = "blur",
       .type = number,
       .low = 0,
       .high = 100,
       .unit = "mm",
       .fallback = "0.8",
       .example = "blur = 0.8",
       .meaning = "Width of its soft edge."},
      {.section = "outline",
       .key = "colour",
       .type = ValueType::colour,
       .fallback = R"("white")",
       .example = R"(colour = "white")",
       .meaning = "Colour of the outline."},
      {.section = "outline",
       .key = "width",
       .type = number,
       .low = 0,
       .high = 100,
       .unit = "mm",
       .fallback = "0.4",
       .example = "width = 0.4",
       .meaning = "Its thickness."},
      {.section = "clip",
       .key = "path",
       .type = ValueType::text,
       .example = R"(path = "M0 0 L20 0 L10 15 Z")",
       .meaning = "SVG path data in millimetres from the top left of the box.",
       .source = "SVG 1.1, chapter 8",
       .presence = "required"},
  };
}

std::vector<PropertyFacts> gradient_keys() {
  return {
      {.section = "gradient",
       .key = "kind",
       .type = ValueType::word,
       .words = {"linear", "radial"},
       .example = R"(kind = "linear")",
       .meaning = "Along a line, or outwards from a point.",
       .presence = "required"},
      {.section = "gradient",
       .key = "from",
       .type = numbers,
       .low = -100,
       .high = 100,
       .fewest = 2,
       .most = 2,
       .fallback = "[0, 0]",
       .example = "from = [0, 0]",
       .meaning = "Where a linear gradient begins, as fractions of the box."},
      {.section = "gradient",
       .key = "to",
       .type = numbers,
       .low = -100,
       .high = 100,
       .fewest = 2,
       .most = 2,
       .fallback = "[0, 1]",
       .example = "to = [0, 1]",
       .meaning = "Where it ends."},
      {.section = "gradient",
       .key = "centre",
       .type = numbers,
       .low = -100,
       .high = 100,
       .fewest = 2,
       .most = 2,
       .fallback = "[0.5, 0.5]",
       .example = "centre = [0.5, 0.5]",
       .meaning = "The middle of a radial gradient, as fractions of the box."},
      {.section = "gradient",
       .key = "radius",
       .type = number,
       .low = 0,
       .high = 100,
       .fallback = "0.5",
       .example = "radius = 0.5",
       .meaning = "Of a radial gradient, as a fraction of the box's longer side."},
      {.section = "gradient",
       .key = "stops",
       .type = ValueType::stops,
       .example = R"(stops = [["#fff", 0], ["ink", 1]])",
       .meaning = "Colours, each with its place from 0 to 1.",
       .presence = "required"},
  };
}

}  // namespace

std::vector<PropertyFacts> layout_part_keys() {
  std::vector<PropertyFacts> all;
  for (auto make : {line_keys, effect_keys, gradient_keys}) {
    for (PropertyFacts& facts : make()) all.push_back(std::move(facts));
  }
  return all;
}

const std::vector<SectionFacts>& layout_sections() {
  static const std::vector<SectionFacts> sections = {
      {"layout", Occurrence::once, "at the top of the file", "The file itself", "",
       "use = [\"frame.toml\"]"},
      {"element", Occurrence::listed, "[[element]]", "What all elements share",
       "A layout is a list of elements; later ones lie on top of earlier ones.",
       "[[element]]\nid = \"title\"\nkind = \"text\"\ntext = \"{name}\"\nat = [5, 5]\n"
       "size = [53.5, 8]\nstyle = \"title\""},
      {"on-box", Occurrence::inside, "in the layout of the box",
       "What the box's elements say besides",
       "The layout that `[box] layout` names is drawn on the panels of the box. Each of its "
       "elements "
       "says on which; elements within a group are drawn where the group is. There is no card, so "
       "of "
       "the placeholders only `{game.title}` and its like are known, and `{box.cards}`, the number "
       "of cards in the box.",
       "[[element]]\nid = \"shore\"\nkind = \"picture\"\npanels = [\"left\", \"front\", "
       "\"right\", \"back\"]\npicture = \"art/shore.svg\"\nfit = \"cover\""},
      {"picture", Occurrence::inside, "kind = \"picture\"", "Pictures", "",
       "[[element]]\nid = \"art\"\nkind = \"picture\"\ninset = \"bleed\"\n"
       "picture = \"art/{art}\"\nfit = \"cover\""},
      {"text", Occurrence::inside, "kind = \"text\"", "Texts",
       "Besides these two keys a text takes those of *How a text is set*.",
       "[[element]]\nid = \"rule\"\nkind = \"text\"\nat = [6, 60]\nsize = [51.5, 20]\n"
       "text = \"{text}\"\nstyle = \"rule\"\nminimum = 7"},
      {"type", Occurrence::inside, "in a text or in [styles.NAME]", "How a text is set",
       "These keys stand in an element of kind `text` or in a style.",
       "font = \"Noto Sans\"\nweight = \"bold\"\ntype = 10\nalign = \"centre\""},
      {"shape", Occurrence::inside, "kind = \"shape\"", "Shapes", "",
       "[[element]]\nid = \"band\"\nkind = \"shape\"\nat = [0, 60]\nsize = [63.5, 12]\n"
       "fill = \"{suit.colour}\""},
      {"repeat", Occurrence::inside, "kind = \"repeat\"", "Repeats",
       "One small picture, many times: pips, costs, dice. It needs `symbol` or `picture`.",
       "[[element]]\nid = \"pips\"\nkind = \"repeat\"\nat = [10, 20]\nsize = [43.5, 40]\n"
       "symbol = \"shell\"\ncount = \"{rank}\"\narrange = \"grid\"\ncolumns = 3"},
      {"group", Occurrence::inside, "kind = \"group\"", "Groups",
       "Elements that are moved, turned or left out together. They stand in `elements` as a list, "
       "or below the group as `[[element.element]]`; their `at` is measured from the group's box.",
       "[[element]]\nid = \"corner\"\nkind = \"group\"\nat = [4, 4]\nsize = [10, 14]\n\n"
       "[[element.element]]\nid = \"corner-rank\"\nkind = \"text\"\ntext = \"{rank}\""},
      {"place", Occurrence::inside, "kind = \"place\"", "Places for cards",
       "Only in the layout of the mat. A place is as large as a card with some clearance, and "
       "follows the card when its size changes. `at` is the upper left corner of the whole; with "
       "`inset`, or `at` and `size`, the whole lies in the middle of that box. Words in it are set "
       "as *How a text is set* says.",
       "[[element]]\nid = \"draw\"\nkind = \"place\"\narrange = \"pile\"\nat = [40, 150]\n"
       "label = \"Draw\"\n\n[[element]]\nid = \"rows\"\nkind = \"place\"\narrange = \"row\"\n"
       "suits = [\"shell\", \"weed\"]\ninset = [0, 0, 200, 0]"},
      {"stroke", Occurrence::inside, "{ colour = …, width = … }", "Lines", "",
       "stroke = { colour = \"ink\", width = 0.3, dash = [1, 0.5] }"},
      {"shadow", Occurrence::inside, "{ colour = …, offset = …, blur = … }", "Shadows", "",
       "shadow = { colour = \"#0006\", offset = [0.4, 0.6], blur = 0.8 }"},
      {"outline", Occurrence::inside, "{ colour = …, width = … }", "Outlines", "",
       "outline = { colour = \"white\", width = 0.4 }"},
      {"clip", Occurrence::inside, "{ path = … }", "Clipping to a path", "",
       "clip = { path = \"M0 0 L20 0 L10 15 Z\" }"},
      {"gradient", Occurrence::inside, "{ kind = …, stops = … }", "Gradients", "",
       "fill = { kind = \"linear\", from = [0, 0], to = [0, 1], stops = [[\"#fff\", 0], "
       "[\"ink\", 1]] }"},
  };
  return sections;
}

}  // namespace quoin::game
