#pragma once
#include <limits>
#include <string>
#include <string_view>
#include <vector>

#include "base/diagnostic.h"
#include "game/node.h"

namespace quoin::game {

/// What a value of a key may be. Where a key has `words` too, one of those may stand instead.
enum class ValueType {
  text,          ///< any string
  word,          ///< one of `words` and nothing else
  number,        ///< within `low`..`high`
  whole,         ///< a number without a fraction
  flag,          ///< true or false
  colour,        ///< "#rgb", "#rrggbb" (two more digits for alpha), black, white, transparent,
                 ///< or a name of [colours]
  paint,         ///< a colour, "none", or a gradient as a table
  file,          ///< the path of a file in the game folder
  size,          ///< a name of formats.h or "63.5x88.9"; read by find_size
  style,         ///< a name of [styles]
  symbol,        ///< a name of [symbols]
  numbers,       ///< a list of `fewest`..`most` numbers
  edges,         ///< one number for all edges, or a list of four: top, right, bottom, left
  number_lists,  ///< a list of lists of `fewest`..`most` numbers each
  texts,         ///< a string, or a list of strings
  table,         ///< a table with the keys of section `part`
  tables,        ///< a list of such tables
  stops,         ///< a list of at least two [colour, place 0..1]
  conditions,    ///< a table: column = word, or column = [words]
};

/// One key of the maker's files: the row of the one table from which checking, defaults, the
/// reference page and the JSON schema come.
struct PropertyFacts {
  std::string_view section;  ///< "card", "element", "text", "stroke": see SectionFacts
  std::string_view key;
  ValueType type = ValueType::text;
  std::vector<std::string_view> words = {};
  double low = -std::numeric_limits<double>::infinity();  ///< for each number, inclusive
  double high = std::numeric_limits<double>::infinity();
  int fewest = 0, most = 0;              ///< numbers in a list
  std::string_view unit = "";            ///< "mm", "pt", "degrees", as the reference page names it
  std::string_view part = "";            ///< the section that describes the table
  std::string_view fallback = "";        ///< the default as TOML; "" when there is none
  std::string_view fallback_words = "";  ///< the default in words when it is no plain value
  std::string_view example = "";         ///< the line as a maker would write it
  std::string_view meaning = "";         ///< Markdown, a sentence or more
  std::string_view source = "";          ///< where a limit or a default comes from
  std::string_view presence = "";        ///< "required", or "" when the key may be left out
};

/// How often a section's table stands in a file.
enum class Occurrence {
  once,    ///< [card]
  named,   ///< [suits.shell]: one for each name of the maker's
  listed,  ///< [[layouts]]: one after the other
  inside,  ///< a table inside another value, or the keys of a kind of element
};

/// A table of the maker's files.
struct SectionFacts {
  std::string_view name;  ///< "suits"
  Occurrence occurrence = Occurrence::once;
  std::string_view heading;        ///< as the maker writes it: "[suits.NAME]"
  std::string_view title;          ///< of its part of the reference page
  std::string_view intro;          ///< Markdown
  std::string_view example;        ///< TOML
  std::string_view own_keys = "";  ///< what keys of the maker's own may hold: "", "text", "colour",
                                   ///< "symbol"
};

/// The sections in the order of the reference page, those of game.toml first.
[[nodiscard]] const std::vector<SectionFacts>& game_sections();
[[nodiscard]] const std::vector<SectionFacts>& layout_sections();
/// Those of printers/NAME.toml; "profile" holds the keys above its headings.
[[nodiscard]] const std::vector<SectionFacts>& printer_sections();
/// The section of that name. A name that is in none of the lists is a broken promise of ours:
/// `std::logic_error`.
[[nodiscard]] const SectionFacts& section_facts(std::string_view section);

/// The keys of one section in the order of the reference page.
[[nodiscard]] const std::vector<PropertyFacts>& keys_of(std::string_view section);

/// The facts of a property of an element, for the kinds "picture", "text", "shape", "repeat",
/// "group" and "place": the kind's own keys, the text properties for "text" and "place", and the
/// keys all elements share. Also takes the name of any section ("shadow", "stroke", "card"). Null
/// when there is no such key, so `property_facts("picture", "radius") == nullptr`.
[[nodiscard]] const PropertyFacts* property_facts(std::string_view kind, std::string_view property);
/// All keys that `property_facts` finds for the kind, as the reference page orders them.
[[nodiscard]] std::vector<const PropertyFacts*> properties_of(std::string_view kind);

/// The default of a key as a value with its place "nowhere"; a table without entries when the key
/// has none.
[[nodiscard]] Node default_value(const PropertyFacts& facts);

/// The names of one game that values may refer to.
struct KnownNames {
  std::vector<std::string> colours, styles, symbols;
};

/// True when the text holds a placeholder, so that its value is known for a card only. `{{` is
/// a written brace and no placeholder.
[[nodiscard]] bool has_placeholder(std::string_view text);

/// True for keys whose strings are filled for each card: those of elements and styles, but not an
/// element's id and kind, and nothing else in game.toml.
[[nodiscard]] bool takes_placeholders(const PropertyFacts& facts);

/// A string that was filled for a card, read as the type that the key asks for: "3.5" becomes a
/// number, "1, 2" or "1 2" a list of numbers, "yes" or "true" a flag. What cannot be read so
/// stays a string, and `check_value` says what is wrong with it.
[[nodiscard]] Node read_filled(const PropertyFacts& facts, std::string_view filled,
                               const Origin& origin);

/// What is wrong with a value, nothing when it is as `facts` ask: `game.wrong-type`,
/// `game.unknown-word`, `game.out-of-range`, `game.unknown-key`, `game.missing-key`,
/// `game.unknown-colour`, `game.unknown-style`, `game.unknown-symbol`. Where placeholders are
/// taken, strings that hold one pass, wherever they stand in the value: fill them, read them with
/// `read_filled`, check again.
/// Files are not opened and sizes not read.
[[nodiscard]] Diagnostics check_value(const PropertyFacts& facts, const Node& value,
                                      const KnownNames& names);

}  // namespace quoin::game
