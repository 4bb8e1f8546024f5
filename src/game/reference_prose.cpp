#include "game/reference_prose.h"

namespace quoin::game {

const std::string_view page_introduction =
    R"md(<!-- Generated from the table in src/game/schema*.cpp; change it there. -->
# The files of a game

A game is a folder. It holds a page of facts, a list of cards, drawings that say how cards look,
and pictures:

```
tidewrack/
  game.toml       the facts: title, size, paper, colours, suits …
  cards.csv       the list: a row for each different card
  layouts/        how cards look: face.toml, back.toml …
  art/            the pictures; art/sources.csv says where each came from
  rules.md        the rules, in Markdown
  fonts/          the fonts, when the game brings its own
  printers/       printers that were measured, when the game brings one
  prices.toml     what paper and ink cost, when several games share it
```

All of them are plain text or pictures; any text editor and any spreadsheet opens them. Text files
are UTF-8. You need not learn this page by heart: `quoin new` makes a folder with everything in its
place, and `quoin check` points at the line in which something is wrong and says what to write
instead.

**Lengths are millimetres**, written without the unit: `bleed = 3`. The one exception is type size,
which is in points, as everywhere in the trade. Places are measured from the top left corner of the
finished card, to the right and down. Angles are degrees, clockwise.

In this page:

- [game.toml](#gametoml): the facts
- [cards.csv](#cardscsv): the list of cards
- [Layouts](#layouts): how cards look
- [Placeholders](#placeholders): how a card's own words come into a layout
- [Conditions](#conditions): what is drawn on which card
- [Elements](#elements): pictures, texts, shapes, repeats and groups, with all their keys
- [The text of the rules](#the-text-of-the-rules): what rules.md may hold
- [Printers](#printers): what was measured of a printer
- [Sizes](#sizes): names of card and paper sizes

)md";

const std::string_view page_settings = R"md(## game.toml

This file is written in TOML. Three rules are enough to read and write it:

- A name in brackets, `[card]`, is a heading. What stands below it belongs to it.
- `key = value` gives one fact. Texts stand in double quotes, numbers and `true` and `false` do not,
  lists stand in brackets with commas between: `[5, 5, 12, 5]`.
- `#` begins a remark, which is for you alone.

The smallest game.toml is a heading and a title; everything else has a default. A key that is not
on this page is an error and not passed over, so a slip of the keyboard does not go unseen.

)md";

const std::string_view page_cards = R"md(## cards.csv

The list of cards is a table as every spreadsheet saves it ("CSV", comma-separated values, UTF-8).
The first row names the columns; each row below it is one card.

```csv
id,suit,rank,name,text,copies
S-1,sun,1,First light,Draw a card.,3
S-2,sun,2,Morning,"Play it on a [sun], or take one [moon] back.",2
```

A text that holds a comma, a quote or a line break stands in double quotes; a double quote within it
is written twice. Rows that are empty from end to end are passed over. A list with semicolons or
tabs instead of commas is read too. (Source of the format: RFC 4180.)

Quoin knows these columns:

- **`id`**: required. A short name of its own for each card. It becomes part of file names, so it is
  made of the letters a to z, digits, `-`, `_` and `.`; capitals do not make a difference.
- **`suit`**: the card's suit, one of `[suits.ID]` in game.toml, or empty.
- **`copies`**: how many of the card are in the deck, 0 to 999. Empty means 1; a card with 0 copies
  is checked but not printed.
- **`deck`**: the card's deck, one of `[decks.ID]`; empty means the first.
- **`layout`**: the card's layout, as the path of the file or its name without `.toml`; empty means
  the first of `[[layouts]]` that fits.
- **`name`**: what you call the card. It may be drawn, and need not be.

**Every other column is yours**: call it as you like and put it in place with `{column}`. `rank`,
`text` and `art` are usual, no more than that. A column that no layout draws is mentioned once, in
case it was forgotten.

)md";

const std::string_view page_layouts = R"md(## art/sources.csv

Where the pictures came from. It is needed only by who gives the game to others
([Giving the game to others](guide/sharing.md)); `quoin share` reads it, and everything else only
mentions what is odd in it.

```csv
file,author,source,licence,changes
finds/*,Ida Berg,,own,
gull.svg,Mara Lund,https://example.org/gull,CC-BY-4.0,recoloured
```

Columns stand in any order:

- **`file`**: a picture or a font, named from the folder `art` or from the game's; `*` stands for
  any letters, and a folder's name with `/` for all in it. A row that names a file goes before one
  that takes it by `*`.
- **`author`** (or `made_by`): who made it. May be empty for what is your own.
- **`source`**: where it is from: an address, a book.
- **`licence`** (or `license`): an identifier of the SPDX License List, `CC-BY-4.0`, or one of the
  words `own`, `permission`, `public domain`, `all rights reserved` and `unknown`. `A OR B` lets you
  choose, `A AND B` asks for both.
- **`changes`**: what you changed of it, when you did.

Other columns are yours.

## Layouts

A layout says how cards look. It is a TOML file with one part for each thing that is drawn, and the
parts lie on each other in the order of the file: the first is beneath, the last on top.

```toml
use = ["frame.toml"]

[[element]]
id = "name"
kind = "text"
at = [5, 5]
size = [53.5, 8]
text = "{name}"
style = "name"
```

)md";

const std::string_view page_placeholders = R"md(## Placeholders

A name in braces stands for something of the card that is drawn:

| written | becomes |
|---|---|
| `{name}` | what stands in the column `name` of cards.csv; any column will do |
| `{suit.colour}` | a key of the card's suit, also one of your own |
| `{suit}`, `{deck}`, `{layout}` | the id of its suit and deck, the name of its layout |
| `{deck.name}` | the name of its deck |
| `{game.title}` | a key of `[game]` |
| `{card.number}`, `{card.copies}` | its place in the list, from 1, and how many there are of it |
| `{{` and `}}` | a brace that is printed |

Any key of an element or a style may hold placeholders, also one that needs a number or a colour:
`fill = "{suit.colour}"`, `count = "{rank}"`, `picture = "art/{art}"`. When nothing is left after
filling, the key counts as not given and its default holds. Lists may be filled number by number,
`at = ["{x}", 12]`, or from one cell that holds `5, 12`.

)md";

const std::string_view page_conditions = R"md(## Conditions

`when` keeps an element, or a whole layout, for some cards; `unless` keeps it from some. Each is a
table of columns and the words that may stand in them:

```toml
when = { suit = ["sun", "moon"], kind = "rule" }
unless = { text = "" }
```

- All entries of `when` must hold for the element to be drawn. It is left out when all entries of
  `unless` hold.
- A list means any of its words.
- `""` means that the cell is empty, `"*"` that it is not.
- Besides columns you may ask for `suit`, `deck`, `layout` and keys of the suit:
  `when = { suit.tide = "high" }`.

)md";

const std::string_view page_rules = R"md(## The text of the rules

`rules.md` is a text in Markdown, as CommonMark 0.30 describes it, with tables: headings (`#` is the
title), paragraphs, `*emphasis*` and `**bold**`, lists in lists, quotes, tables, pictures, and `---`
for a fine rule. Quoin sets it in the game's type, folds it so that it goes into the box, and prints
it with the rest.

Besides, as on cards:

| written | becomes |
|---|---|
| `[shell]` | the symbol of that name, in the line |
| `{card:shell-3}` | that card, small; cards alone in a paragraph stand in a row, larger |
| `{count}` | how many cards the list has, copies counted |
| `{count:suit=shell}` | how many have that word in that column, or in `suit`, `deck`, `layout` |
| `{count:suit=shell,rank=1 or 2}` | several conditions, and several words for one |
| `{count:suit=shell is 14}` | prints 14, and says so when the list has another number |
| `{game.title}`, `{suit.shell.name}` | a key of `[game]`, a key of a suit |
| `{credits}` | alone in a paragraph: where the pictures came from, in small lines |
| `![](art/map.svg "A caption")` | a picture; alone in a paragraph it has its caption below |
| `{{` and `}}`, `\\[` | a brace, a bracket that is printed |

- The address of a link is printed behind its words: paper cannot be clicked.
- HTML is left out, and you are told; a remark, `<!-- … -->`, is left out without a word.
- The dashes under the head of a table are three or more: `|---|--:|`.
- A text of more than 200,000 characters is not set.

)md";

const std::string_view page_printers = R"md(## Printers

What was measured of a printer is a TOML file of its own, so that every game can use it and a friend
with the same printer can have it. `quoin printer` writes it; you may change it like any other file.
It lies in `printers/` in the game's folder, or in `quoin/printers/` where this machine keeps
settings (`$XDG_CONFIG_HOME`, else `~/.config`). A game takes it by its name without `.toml`:
`profile = "study-laser"` under `[printer]` in game.toml. When both places have the name, the game's
own file is taken.

)md";

}  // namespace quoin::game
