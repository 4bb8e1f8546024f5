#pragma once
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "base/diagnostic.h"
#include "base/result.h"
#include "base/world.h"
#include "game/box_wishes.h"
#include "game/making_wishes.h"
#include "game/mat_wishes.h"
#include "game/node.h"
#include "game/rules_wishes.h"
#include "game/sources.h"
#include "geometry/geometry.h"

namespace quoin::game {

/// A text of the maker's with its place; columns and suit values are made of these.
struct Text {
  std::string text;
  Origin origin;
};

/// A condition on a card: every entry must hold. `values` are the words any of which the column
/// (or "suit.key", or `deck`, `layout`, `id`) must equal; "" means empty, "*" means not empty.
struct Condition {
  std::string column;
  std::vector<std::string> values;
  Origin origin;
};
using Conditions = std::vector<Condition>;

/// An element of a layout as written: keys checked against the schema, values not yet filled.
struct Element {
  std::string id;
  std::string kind;  ///< picture, text, shape, repeat, group; on a mat also place
  Origin origin;
  Conditions when;
  Conditions unless;
  Table properties;  ///< all but id, kind, when, unless, elements; in a used file: overridden ones
                     ///< replaced
  std::vector<Element> children;  ///< of a group
};

struct Layout {
  FileName file;
  Origin origin;
  std::vector<Element> elements;  ///< those of used files first (beneath)
};

struct Suit {
  std::string id;
  Origin origin;
  std::map<std::string, Text, std::less<>>
      values;  ///< name, colour, icon, back and the maker's own
};

struct Deck {
  std::string id;
  std::string name;
  Origin origin;
  std::string back;  ///< layout file, "" for blank backs
  Origin back_origin;
};

struct Card {
  std::string id;
  int number = 0;  ///< 1 for the first row
  int copies = 1;
  std::string suit, deck;   ///< ids; suit may be ""
  int layout = -1;          ///< index into Game::layouts; -1: none fits (reported)
  int back = -1;            ///< index into Game::layouts; -1: blank back
  Origin origin;            ///< the row's id cell
  std::vector<Text> cells;  ///< one for each column
};

struct Symbol {
  std::string name;
  std::string picture;
  double scale = 1;
  double drop = 0.12;
  Origin origin;
};

/// A named colour or style keeps its node; the pieces read it.
struct Named {
  std::string name;
  Node value;
};

struct CardFormat {
  Size size{Mm{63.5}, Mm{88.9}};
  Mm corner;
  Mm bleed{3};
  Mm safe{3};
  std::string size_name;  ///< as the maker wrote it
  Origin origin;
};

struct Stock {
  std::string name;
  std::string paper_class;         ///< a word of the schema, "" when not given
  std::optional<double> grammage;  ///< g/m2
  std::optional<Mm> caliper;
  Origin origin;  ///< of [stock], or of game.toml
};

enum class BackPrinting { printer, by_hand, fold, none };
enum class Pile { face_down, face_up };
enum class FlipEdge { long_edge, short_edge };
enum class SheetOrder { list, cut_and_stack, by_suit };
enum class Turn { automatic, upright, turned };
enum class Orientation { automatic, portrait, landscape };
enum class Spacing { automatic, shared, gutters, fixed };
struct GridAsked {
  int columns = 0, rows = 0;
};

/// What [sheets] and [printer] say, defaults filled in.
struct SheetWishes {
  Size paper{Mm{210}, Mm{297}};  ///< portrait unless the maker gave W x H the other way round
  std::string paper_name = "A4";
  FlipEdge flip = FlipEdge::long_edge;
  BackPrinting backs = BackPrinting::printer;
  Pile pile = Pile::face_down;
  Spacing spacing = Spacing::automatic;
  Mm gutter;  ///< when spacing is fixed
  SheetOrder order = SheetOrder::list;
  std::optional<GridAsked> grid;
  Turn turn = Turn::automatic;
  Orientation orientation = Orientation::automatic;
  Mm back_bleed;  ///< more than the fronts' bleed
  Insets dead_margin = Insets::all(Mm{5});
  Origin origin;  ///< of [sheets], or of game.toml
};

/// What is known of a printer that was not measured: its kind.
enum class PrinterKind { laser, inkjet, copy_shop };

/// What [printer] says besides the margin, which is with the sheets.
struct PrinterWishes {
  std::string profile;  ///< the name of a printer that was measured, "" for none
  Origin origin;        ///< of that name, or of [printer], or of game.toml
  PrinterKind kind = PrinterKind::laser;
  bool margin_given = false;          ///< else a measured printer's own margin holds
  std::optional<double> heaviest;     ///< g/m²
  std::optional<Mm> register_within;  ///< 19 backs in 20 lie within this of their fronts
  std::optional<Angle> askew_within;  ///< 19 prints in 20 are turned by no more
  std::optional<Mm> feed_within;      ///< 19 prints in 20 lie within this of their place on a sheet
  Origin heaviest_origin;
};

/// Limits of the checks; defaults are in the schema's table with their sources.
struct Limits {
  double good_ppi = 300, poor_ppi = 200;
  Mm smallest_type{6 * mm_per_inch / points_per_inch};
  Mm smallest_type_knocked_out{7 * mm_per_inch / points_per_inch};
  Mm thinnest_line{0.088};
  Mm thinnest_line_knocked_out{0.18};
  double contrast = 4.5, contrast_large = 3.0;
  double suit_difference = 10;   ///< CIEDE2000
  std::vector<std::string> off;  ///< names of diagnostics silenced by the maker
};

struct Game {
  std::string title, subtitle, author, version, licence, website;
  std::string language = "en";
  CardFormat card;
  Stock stock;
  SheetWishes sheets;
  PrinterWishes printer;
  std::optional<BoxWishes> box;      ///< nothing when there is no [box]
  std::optional<MatWishes> mat;      ///< nothing when there is no [mat]
  std::optional<RulesWishes> rules;  ///< nothing when there is no file of rules
  MakingWishes making;
  Limits limits;
  std::vector<Named> colours;
  std::vector<Named> styles;  ///< each a table of text properties
  std::vector<std::string> font_files;
  std::vector<Symbol> symbols;
  std::vector<Suit> suits;
  std::vector<Deck> decks;
  std::vector<Layout> layouts;  ///< each file once: faces and backs
  std::vector<Text> columns;    ///< header cells of cards.csv, as written
  std::vector<Card> cards;
  std::map<std::string, Text, std::less<>> facts;  ///< every string of [game], for {game.key}
  Sources sources;                                 ///< where pictures came from
};

/// Reads the game folder: game.toml, cards.csv, the layouts they name. Gives all that could be
/// read and every problem of every file in one run; whether it may be printed is for the errors
/// among `found` to say.
/// Prices that the game does not give come from `prices.toml` beside game.toml, or else from that
/// of the machine; `game.currencies-differ` when they cannot be added up, and what the schema
/// finds.
[[nodiscard]] Checked<Game> read_game(const World& world, const MachinePrices& machine = {});

/// The column's index, or -1. Columns are matched exactly.
[[nodiscard]] int column(const Game& game, std::string_view name);
/// The layout that is drawn on the box, or null.
[[nodiscard]] const Layout* box_layout(const Game& game);
/// The layout that is drawn on the mat, or null.
[[nodiscard]] const Layout* mat_layout(const Game& game);
[[nodiscard]] const Suit* suit_of(const Game& game, const Card& card);

/// The value behind a placeholder name for a card: a column, "suit.key", "game.key",
/// "deck.name", "card.number", "card.copies", "box.cards". Null when there is no such name.
[[nodiscard]] std::optional<Text> look_up(const Game& game, const Card& card,
                                          std::string_view name);
[[nodiscard]] bool holds(const Game& game, const Card& card, const Conditions& conditions);

/// A text with its placeholders filled. Unknown names are added to `unknown` and left as written.
/// `{{` and `}}` write braces. `source` is set to the place of the value when the whole text is
/// one placeholder, so that a problem points at the card's cell.
struct Filled {
  std::string text;
  std::optional<Origin> source;
};
[[nodiscard]] Filled fill(const Game& game, const Card& card, std::string_view text,
                          std::vector<std::string>& unknown);

/// The nearest of `known` to `word` by edit distance, when it is near enough to be meant.
[[nodiscard]] std::optional<std::string> nearest(std::string_view word,
                                                 const std::vector<std::string>& known);

}  // namespace quoin::game
