#include "game/starter_files.h"

namespace quoin::game {

const std::string_view starter_settings =
    R"toml(# The facts of the game. Lines that begin with # are remarks, for you alone.
# docs/game-files.md explains every key.

[game]
title = @TITLE@
version = "0.1"               # printed on the sheets' edge: old and new cards are told apart

[card]
size = "poker"                # a name, or width and height in millimetres: "63.5x88.9"

[stock]
name = "uncoated card"        # what you print on
grammage = 300                # g/m², as it stands on the packet
caliper = 0.3                 # thickness of one card in mm

# Colours with names of your own. Change one here and it changes on every card.
[colours]
ink = "#22313f"
sand = "#f3ead7"
night = "#22313f"

# How texts look. A layout says style = "rule" and gets all of this.
[styles.name]
font = "Noto Sans"
weight = "bold"
type = 11                     # points; all other measures are millimetres
colour = "ink"
align = "centre"
valign = "middle"

[styles.rule]
font = "Noto Sans"
type = 8.5
minimum = 7                   # a long text is set smaller, down to 7 points
colour = "ink"
align = "centre"
valign = "middle"

[styles.rank]
font = "Noto Sans"
weight = "bold"
type = 14
colour = "{suit.colour}"      # each card gets the colour of its own suit
align = "centre"
valign = "middle"

# Small pictures for texts: [sun] in cards.csv prints the picture.
[symbols]
sun = "art/sun.svg"
moon = "art/moon.svg"

# The suits. Cards choose one in the column "suit".
[suits.sun]
name = "Sun"
colour = "#b3541e"
icon = "art/sun.svg"

[suits.moon]
name = "Moon"
colour = "#2f4b7c"
icon = "art/moon.svg"

[decks.main]
name = "Day and night"
back = "layouts/back.toml"

# Which layout for which card: the first that fits. This one fits all.
[[layouts]]
file = "layouts/face.toml"

[sheets]
paper = "A4"                  # or "Letter"
)toml";

const std::string_view starter_cards =
    "id,suit,rank,name,text,copies\r\n"
    "S-1,sun,1,First light,Draw a card.,3\r\n"
    "S-2,sun,2,Morning,\"Play it on a [sun], or take one [moon] back.\",2\r\n"
    "S-3,sun,3,Noon,*Everyone* shows a card.,2\r\n"
    "S-4,sun,4,Dusk,\"Take the pile, unless a [moon] lies on top.\",1\r\n"
    "M-1,moon,1,Moonrise,Draw a card.,3\r\n"
    "M-2,moon,2,Starlight,\"Play it on a [moon], or take one [sun] back.\",2\r\n"
    "M-3,moon,3,Midnight,*Nobody* speaks until the next card.,2\r\n"
    "M-4,moon,4,Before dawn,\"Take the pile, unless a [sun] lies on top.\",1\r\n";

const std::string_view starter_rules = R"md(# {game.title}

*For two players, about ten minutes.*

<!-- Remarks like this one are for you alone. docs/game-files.md tells what else may stand here. -->

## The cards

There are {count} cards: {count:suit=sun} of the [sun] sun and {count:suit=moon} of the [moon] moon.

{card:S-1} {card:S-4} {card:M-1} {card:M-4}

## Setting up

1. Shuffle the cards and deal five to each player.
2. Lay the rest face down: that is the deck. Turn up one card beside it to begin the pile.

## Your turn

Lay a card of your hand on the pile, and do what it says. It must be

- of the **same suit** as the card on top, or
- of a **higher rank.**

Can you lay none? Then draw one, and your turn is over.

## The end

When the deck is empty and a player has no card left, the game ends. Whoever took fewer cards from
the pile wins.
)md";

const std::string_view starter_frame =
    R"toml(# What all faces share. face.toml lays its own elements on top of these.
# Places and sizes are millimetres from the top left corner of the finished card.

[[element]]
id = "ground"
kind = "shape"
inset = "bleed"               # reaches past the cutting line, so that no cut leaves a white edge
fill = "sand"

[[element]]
id = "panel"
kind = "shape"
inset = 4
radius = 2.5
fill = "white"
stroke = { colour = "{suit.colour}", width = 0.6, align = "inside" }
role = "border"

# A group moves as one. Its elements are placed from the group's own corner.
[[element]]
id = "corner"
kind = "group"
at = [6, 6]
size = [8, 14]

[[element.element]]
id = "corner-rank"
kind = "text"
at = [0, 0]
size = [8, 7]
text = "{rank}"               # the column "rank" of cards.csv
style = "rank"

[[element.element]]
id = "corner-icon"
kind = "picture"
at = [1.5, 7.5]
size = [5, 5]
picture = "{suit.icon}"       # the icon of the card's suit, from game.toml

# The same in the opposite corner, upside down, for a hand held the other way.
[[element]]
id = "far-corner"
kind = "group"
at = [49.5, 68.9]
size = [8, 14]
rotation = 180

[[element.element]]
id = "far-corner-rank"
kind = "text"
at = [0, 0]
size = [8, 7]
text = "{rank}"
style = "rank"

[[element.element]]
id = "far-corner-icon"
kind = "picture"
at = [1.5, 7.5]
size = [5, 5]
picture = "{suit.icon}"
)toml";

const std::string_view starter_face = R"toml(# The front of a card.
use = ["frame.toml"]          # its elements come first, beneath

[[element]]
id = "name"
kind = "text"
at = [15, 7]
size = [33.5, 8]
text = "{name}"
style = "name"
minimum = 8                   # keys written here win over the style's

[[element]]
id = "pips"
kind = "repeat"
at = [14, 20]
size = [35.5, 30]
picture = "{suit.icon}"
count = "{rank}"              # as many as the card's rank
arrange = "grid"
columns = 2
each = [12, 12]
gap = 4

[[element]]
id = "rule"
kind = "text"
at = [11, 54]
size = [41.5, 14]
text = "{text}"
style = "rule"
unless = { text = "" }        # left out on cards without a text
)toml";

const std::string_view starter_back =
    R"toml(# The back of every card. It looks the same upside down, so that no card is given away.

[[element]]
id = "ground"
kind = "shape"
inset = "bleed"
fill = "night"

[[element]]
id = "plate"
kind = "shape"
shape = "ellipse"
at = [11.75, 24.45]
size = [40, 40]
fill = "sand"

[[element]]
id = "suns"
kind = "repeat"
at = [11.75, 24.45]
size = [40, 40]
symbol = "sun"
count = 6
arrange = "ring"
each = [7, 7]
upright = false

[[element]]
id = "moon-left"
kind = "picture"
at = [25.25, 39.95]
size = [6, 9]
picture = "art/moon.svg"

[[element]]
id = "moon-right"
kind = "picture"
at = [32.25, 39.95]
size = [6, 9]
picture = "art/moon.svg"
rotation = 180
)toml";

const std::string_view starter_sun =
    R"svg(<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 24 24">
  <circle cx="12" cy="12" r="5" fill="#b3541e"/>
  <g stroke="#b3541e" stroke-width="2" stroke-linecap="round">
    <path d="M12 2v3M12 19v3M2 12h3M19 12h3"/>
    <path d="M4.9 4.9l2.1 2.1M17 17l2.1 2.1M4.9 19.1l2.1-2.1M17 7l2.1-2.1"/>
  </g>
</svg>
)svg";

const std::string_view starter_moon =
    R"svg(<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 24 24">
  <path d="M15 2a10 10 0 1 0 7 15A9 9 0 0 1 15 2z" fill="#2f4b7c"/>
</svg>
)svg";

}  // namespace quoin::game
