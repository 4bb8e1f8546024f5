#include "game/schema_tables.h"

namespace quoin::game {
namespace {

constexpr ValueType text = ValueType::text;
constexpr ValueType word = ValueType::word;
constexpr ValueType number = ValueType::number;
constexpr ValueType file = ValueType::file;

std::vector<PropertyFacts> title_keys() {
  return {
      {.section = "game", .key = "title", .type = text, .example = R"(title = "Tidewrack")",
       .meaning = "The name of the game, as it stands on the sheets and in the guide.",
       .presence = "required"},
      {.section = "game", .key = "subtitle", .type = text,
       .example = R"(subtitle = "A game of tides for two")", .meaning = "A line below the title."},
      {.section = "game", .key = "author", .type = text, .example = R"(author = "The Shore Club")",
       .meaning = "Who made the game."},
      {.section = "game", .key = "version", .type = text, .example = R"(version = "0.3")",
       .meaning = "Which state of the game this is; printed on the sheets' edge, so that old and "
                  "new cards are told apart. Write it in quotes."},
      {.section = "game", .key = "licence", .type = text, .example = R"(licence = "CC BY 4.0")",
       .meaning = "What others may do with the game."},
      {.section = "game", .key = "website", .type = text,
       .example = R"(website = "https://example.org")", .meaning = "Where more is to be found."},
      {.section = "game", .key = "language", .type = text, .fallback = R"("en")",
       .example = R"(language = "de")",
       .meaning = "The language of the cards as a language tag: `en`, `de`, `pt-BR`. It chooses "
                  "where words may be hyphenated, and readers of the PDF are told.",
       .source = "BCP 47 (RFC 5646)"},
  };
}

std::vector<PropertyFacts> card_keys() {
  return {
      {.section = "card", .key = "size", .type = ValueType::size, .fallback = R"("poker")",
       .example = R"(size = "poker")",
       .meaning = "The finished card after cutting: a name that `quoin sizes` lists, or width and "
                  "height in millimetres, `\"63.5x88.9\"`, or in inches, `\"2.5x3.5in\"`."},
      {.section = "card", .key = "corner", .type = number, .low = 0, .high = 100, .unit = "mm",
       .fallback_words = "the usual corner of the size", .example = "corner = 3.5",
       .meaning = "Radius of the rounded corners; 0 for square ones."},
      {.section = "card", .key = "bleed", .type = number, .low = 0, .high = 20, .unit = "mm",
       .fallback = "3", .example = "bleed = 3",
       .meaning = "How far the drawing goes on past the cutting line, so that a cut that wanders a "
                  "little leaves no white edge.",
       .source = "common practice, no source"},
      {.section = "card", .key = "safe", .type = number, .low = 0, .high = 50, .unit = "mm",
       .fallback = "3", .example = "safe = 3",
       .meaning = "How far words and symbols keep away from the cutting line.",
       .source = "common practice, no source"},
      {.section = "stock", .key = "name", .type = text, .example = R"(name = "uncoated card")",
       .meaning = "What you call the paper; printed on the sheets' edge and in the guide."},
      {.section = "stock", .key = "grammage", .type = number, .low = 20, .high = 2000,
       .unit = "g/m²", .example = "grammage = 300",
       .meaning = "Weight of the paper, as it stands on the packet.", .source = "ISO 536"},
      {.section = "stock", .key = "caliper", .type = number, .low = 0.02, .high = 5, .unit = "mm",
       .example = "caliper = 0.3",
       .meaning = "Thickness of one card. Measure a stack of twenty and divide.",
       .source = "ISO 534"},
  };
}

std::vector<PropertyFacts> name_keys() {
  return {
      {.section = "fonts", .key = "files", .type = ValueType::texts,
       .fallback_words = "the folder `fonts` when there is one", .example = R"(files = ["fonts"])",
       .meaning = "Font files of the game, or folders of them: `.ttf`, `.otf`, `.ttc`, `.otc`."},
      {.section = "symbol", .key = "picture", .type = file,
       .example = R"(picture = "art/icons/shell.svg")", .meaning = "The picture of the symbol.",
       .presence = "required"},
      {.section = "symbol", .key = "scale", .type = number, .low = 0.05, .high = 20,
       .fallback = "1", .example = "scale = 1.2",
       .meaning = "Height of the symbol in a line of text; 1 is the type size."},
      {.section = "symbol", .key = "drop", .type = number, .low = -5, .high = 5,
       .fallback = "0.12", .example = "drop = 0.12",
       .meaning = "How far its foot lies below the line on which the letters stand; 1 is the type "
                  "size."},
      {.section = "suits", .key = "name", .type = text, .fallback_words = "the suit's own id",
       .example = R"(name = "Shells")", .meaning = "The suit's name as players read it."},
      {.section = "suits", .key = "colour", .type = ValueType::colour,
       .example = R"(colour = "#c8553d")", .meaning = "The suit's colour: `{suit.colour}`."},
      {.section = "suits", .key = "icon", .type = file, .example = R"(icon = "art/shell.svg")",
       .meaning = "The suit's picture: `{suit.icon}`."},
      {.section = "suits", .key = "back", .type = file,
       .fallback_words = "the back of the deck", .example = R"(back = "layouts/shell-back.toml")",
       .meaning = "The layout of the backs of this suit's cards."},
      {.section = "decks", .key = "name", .type = text, .fallback_words = "the deck's own id",
       .example = R"(name = "Tide deck")", .meaning = "The deck's name as players read it."},
      {.section = "decks", .key = "back", .type = file,
       .fallback_words = "`layouts/back.toml` when there is one, else a blank back",
       .example = R"(back = "layouts/back.toml")",
       .meaning = "The layout of the backs; `\"\"` leaves them blank."},
      {.section = "layouts", .key = "file", .type = file,
       .example = R"(file = "layouts/face.toml")", .meaning = "The layout of the fronts.",
       .presence = "required"},
      {.section = "layouts", .key = "when", .type = ValueType::conditions,
       .example = R"(when = { kind = "rule" })",
       .meaning = "Which cards it is for. Left out, it is for all that are left."},
      {.section = "layouts", .key = "unless", .type = ValueType::conditions,
       .example = R"(unless = { kind = "rule" })", .meaning = "Which cards it is not for."},
  };
}

std::vector<PropertyFacts> sheet_keys() {
  return {
      {.section = "sheets", .key = "paper", .type = ValueType::size, .fallback = R"("A4")",
       .example = R"(paper = "A4")",
       .meaning = "The paper in the printer: a name that `quoin sizes` lists, or width and height, "
                  "`\"210x297\"` or `\"8.5x11in\"`."},
      {.section = "sheets", .key = "flip", .type = word, .words = {"long-edge", "short-edge"},
       .fallback = R"("long-edge")", .example = R"(flip = "long-edge")",
       .meaning = "About which edge the sheet is turned over for its back."},
      {.section = "sheets", .key = "backs", .type = word,
       .words = {"printer", "by-hand", "fold", "none"}, .fallback = R"("printer")",
       .example = R"(backs = "by-hand")",
       .meaning = "How the backs come to their fronts: `printer` prints both sides by itself; "
                  "`by-hand`, you put the printed sheets in again; `fold`, front and back lie side "
                  "by side and are folded and glued; `none`, no backs are printed."},
      {.section = "sheets", .key = "pile", .type = word, .words = {"face-down", "face-up"},
       .fallback = R"("face-down")", .example = R"(pile = "face-up")",
       .meaning = "How the printed fronts lie in the tray of your printer. Only for `backs = "
                  "\"by-hand\"`."},
      {.section = "sheets", .key = "spacing", .type = number,
       .words = {"auto", "shared", "gutters"}, .low = 0, .high = 100, .unit = "mm",
       .fallback = R"("auto")", .example = R"(spacing = "gutters")",
       .meaning = "Between neighbouring cards: `shared`, they touch and one cut parts them; "
                  "`gutters`, each has its own bleed all round; a number, that many millimetres; "
                  "`auto`, whatever is safe and needs fewest sheets."},
      {.section = "sheets", .key = "order", .type = word,
       .words = {"list", "cut-and-stack", "by-suit"}, .fallback = R"("list")",
       .example = R"(order = "by-suit")",
       .meaning = "`list`, the order of cards.csv; `cut-and-stack`, the piles after cutting lie in "
                  "the order of cards.csv when put on each other; `by-suit`, a new sheet for each "
                  "suit."},
      {.section = "sheets", .key = "grid", .type = text, .fallback = R"("auto")",
       .example = R"(grid = "3x3")",
       .meaning = "How many cards side by side and one below the other, `\"3x3\"`; `auto` puts on "
                  "as many as fit."},
      {.section = "sheets", .key = "turn", .type = word, .words = {"auto", "upright", "turned"},
       .fallback = R"("auto")", .example = R"(turn = "upright")",
       .meaning = "Whether the cards stand upright on the sheet or lie a quarter turn round."},
      {.section = "sheets", .key = "orientation", .type = word,
       .words = {"auto", "portrait", "landscape"}, .fallback = R"("auto")",
       .example = R"(orientation = "portrait")", .meaning = "How the sheet itself is held."},
      {.section = "sheets", .key = "back-bleed", .type = number, .low = 0, .high = 20,
       .unit = "mm", .fallback = "0", .example = "back-bleed = 1",
       .meaning = "How much further the backs go on past the cutting line than the fronts, for a "
                  "printer that does not hit the same place on both sides."},
      {.section = "printer", .key = "margin", .type = ValueType::edges, .low = 0, .high = 100,
       .unit = "mm", .fallback = "5", .example = "margin = [5, 5, 12, 5]",
       .meaning = "The edge of the paper that your printer cannot reach: one number, or four for "
                  "top, right, bottom and left.",
       .source = "3 to 5 mm is common practice, no source"},
  };
}

std::vector<PropertyFacts> check_keys() {
  return {
      {.section = "checks", .key = "off", .type = ValueType::texts, .fallback = "[]",
       .example = R"(off = ["art.low-resolution"])",
       .meaning = "Names of warnings and notes that you have seen and do not want to see again. "
                  "Errors cannot be switched off."},
      {.section = "checks", .key = "good-ppi", .type = number, .low = 1, .high = 10000,
       .unit = "pixels per inch", .fallback = "300", .example = "good-ppi = 250",
       .meaning = "Pictures with at least this many look sharp at reading distance.",
       .source = "common practice, no source"},
      {.section = "checks", .key = "poor-ppi", .type = number, .low = 1, .high = 10000,
       .unit = "pixels per inch", .fallback = "200", .example = "poor-ppi = 150",
       .meaning = "Pictures with fewer look soft or stepped.",
       .source = "common practice, no source"},
      {.section = "checks", .key = "smallest-type", .type = number, .low = 0, .high = 100,
       .unit = "pt", .fallback = "6", .example = "smallest-type = 7",
       .meaning = "The smallest type that is read without trouble.",
       .source = "common practice, no source"},
      {.section = "checks", .key = "smallest-type-knocked-out", .type = number, .low = 0,
       .high = 100, .unit = "pt", .fallback = "7", .example = "smallest-type-knocked-out = 8",
       .meaning = "The same for light type on a dark ground, into which the ink spreads.",
       .source = "common practice, no source"},
      {.section = "checks", .key = "thinnest-line", .type = number, .low = 0, .high = 10,
       .unit = "mm", .fallback = "0.088", .example = "thinnest-line = 0.1",
       .meaning = "The thinnest line that prints without gaps (0.088 mm is a quarter of a point).",
       .source = "common practice, no source"},
      {.section = "checks", .key = "thinnest-line-knocked-out", .type = number, .low = 0,
       .high = 10, .unit = "mm", .fallback = "0.18", .example = "thinnest-line-knocked-out = 0.25",
       .meaning = "The same for a light line on a dark ground (0.18 mm is half a point).",
       .source = "common practice, no source"},
      {.section = "checks", .key = "contrast", .type = number, .low = 1, .high = 21,
       .fallback = "4.5", .example = "contrast = 4.5",
       .meaning = "Least contrast of type to its ground, from 1 (none) to 21 (black on white).",
       .source = "WCAG 2.2, success criterion 1.4.3, a rule for screens used here as a guide"},
      {.section = "checks", .key = "contrast-large", .type = number, .low = 1, .high = 21,
       .fallback = "3", .example = "contrast-large = 3",
       .meaning = "The same for large type: 18 pt and more, or 14 pt and more when bold.",
       .source = "WCAG 2.2, success criterion 1.4.3, a rule for screens used here as a guide"},
      {.section = "checks", .key = "suit-difference", .type = number, .low = 0, .high = 100,
       .fallback = "10", .example = "suit-difference = 12",
       .meaning = "Least difference (CIEDE2000) between the colours of two suits, also for players "
                  "who see colours differently. 2 is just seen side by side; 10 is told apart "
                  "across a table.",
       .source = "the limit is a choice of ours, no source"},
  };
}

}  // namespace

std::vector<PropertyFacts> game_keys() {
  std::vector<PropertyFacts> all;
  for (auto make : {title_keys, card_keys, name_keys, sheet_keys, check_keys}) {
    for (PropertyFacts& facts : make()) all.push_back(std::move(facts));
  }
  return all;
}

const std::vector<SectionFacts>& game_sections() {
  static const std::vector<SectionFacts> sections = {
      {"game", Occurrence::once, "[game]", "The game",
       "Every word here can be put on a card: `{game.title}`, `{game.version}` …",
       "[game]\ntitle = \"Tidewrack\"\nversion = \"0.3\""},
      {"card", Occurrence::once, "[card]", "The cards",
       "All cards of a game have one size.",
       "[card]\nsize = \"poker\"\ncorner = 3.5"},
      {"stock", Occurrence::once, "[stock]", "What the cards are printed on", "",
       "[stock]\nname = \"uncoated card\"\ngrammage = 300\ncaliper = 0.3"},
      {"colours", Occurrence::once, "[colours]", "Named colours",
       "A name of your own for each colour. It may stand wherever a colour is asked for, so a "
       "colour is changed in one place.",
       "[colours]\nink = \"#1d2b33\"\nsand = \"#e8dcc0\"", "colour"},
      {"fonts", Occurrence::once, "[fonts]", "Fonts",
       "Noto Sans is always there. Other families come with the game as files; a layout then asks "
       "for the family by its name.",
       "[fonts]\nfiles = [\"fonts\"]"},
      {"styles", Occurrence::named, "[styles.NAME]", "Text styles",
       "A style is a set of text properties under a name of your own. A text takes it with "
       "`style = \"rule\"`; properties given at the text itself win over the style's. The "
       "properties are those listed under *How a text is set*.",
       "[styles.rule]\nfont = \"Noto Sans\"\ntype = 8.5\nleading = 1.3"},
      {"symbols", Occurrence::once, "[symbols]", "Symbols",
       "A picture under a short name of your own: `[shell]` in a text puts it in the line, "
       "`symbol = \"shell\"` repeats it. The value is the picture's file, or a table:",
       "[symbols]\nshell = \"art/icons/shell.svg\"\n"
       "rope = { picture = \"art/icons/rope.svg\", scale = 1.2, drop = 0.2 }",
       "symbol"},
      {"suits", Occurrence::named, "[suits.ID]", "Suits",
       "A suit is a group of cards that belong together; a card names its suit in the column "
       "`suit`. Besides the keys below a suit may have any key of your own: `tide = \"high\"` is "
       "put in place by `{suit.tide}`.",
       "[suits.shell]\nname = \"Shells\"\ncolour = \"#c8553d\"\nicon = \"art/icons/shell.svg\"",
       "text"},
      {"decks", Occurrence::named, "[decks.ID]", "Decks",
       "A deck is a pile of cards with one back. A card names its deck in the column `deck`; those "
       "that name none belong to the first. A game without this section has one deck, `main`.",
       "[decks.main]\nname = \"Tide deck\"\nback = \"layouts/back.toml\""},
      {"layouts", Occurrence::listed, "[[layouts]]", "Which layout for which card",
       "The first whose conditions hold is used; a card's column `layout` overrides them. Without "
       "this section all cards use `layouts/face.toml`.",
       "[[layouts]]\nfile = \"layouts/rule.toml\"\nwhen = { kind = \"rule\" }\n\n"
       "[[layouts]]\nfile = \"layouts/face.toml\""},
      {"sheets", Occurrence::once, "[sheets]", "The sheets", "",
       "[sheets]\npaper = \"A4\"\nflip = \"long-edge\"\nbacks = \"printer\""},
      {"printer", Occurrence::once, "[printer]", "The printer", "",
       "[printer]\nmargin = 5"},
      {"checks", Occurrence::once, "[checks]", "Limits of the checks",
       "What Quoin warns of before you print. Change a limit when your printer does better or "
       "worse.",
       "[checks]\noff = [\"art.low-resolution\"]\nsmallest-type = 7"},
      {"symbol", Occurrence::inside, "{ picture = … }", "A symbol as a table", "",
       "rope = { picture = \"art/icons/rope.svg\", scale = 1.2, drop = 0.2 }"},
  };
  return sections;
}

}  // namespace quoin::game
