#pragma once
#include <map>
#include <memory>
#include <string>
#include <vector>

#include "base/diagnostic.h"
#include "pieces/card/studio.h"
#include "rules/markdown.h"

namespace quoin::rules {

/// Words of the rules, ready to be set. A card in the line is a room: see Manuscript::cards.
struct Words {
  std::vector<TextRun> runs;
  Origin origin;
  [[nodiscard]] bool empty() const { return runs.empty(); }
};

enum class PartKind {
  heading,
  words,
  list,   ///< `parts` are its items, each of kind `item`
  item,   ///< `parts` are what stands in it
  quote,  ///< `parts`
  rule,
  table,
  picture,
  cards,  ///< a row of cards
  code,
  credits  ///< small lines, one for each work
};

/// A block of the rules with everything looked up.
struct Part {
  PartKind kind = PartKind::words;
  int level = 1;                         ///< of a heading, 1 to 6
  Words words;                           ///< of a heading, words, code; the caption of a picture
  std::vector<Part> parts;               ///< of a list, an item, a quote
  std::optional<int> number;             ///< of an item in a numbered list
  bool tight = false;                    ///< a list without gaps
  std::vector<std::vector<Words>> rows;  ///< of a table, its head first
  std::vector<CellAlign> aligns;         ///< of its columns
  PicturePtr picture;
  std::vector<int> cards;          ///< indices into the game's cards
  std::vector<std::string> lines;  ///< of credits
  Origin origin;
};

/// A number of cards that the text prints: for the desk and the checks.
struct CountUse {
  std::string written;  ///< "count:suit=shell is 14"
  int cards = 0;
  Origin origin;
};

struct Manuscript {
  std::vector<Part> parts;
  /// The cards that stand in lines, by the rooms kept for them.
  std::map<const InlineSymbol*, int> cards;
  std::vector<CountUse> counts;
  int words = 0;  ///< how many there are
};

/// Height of a card that stands in a line, over the type size.
inline constexpr double card_in_line = 1.25;

/// The maker's rules with symbols, cards, counts and names looked up. `credits` stand where the
/// text says `{credits}`.
///
/// Finds `rules.unknown-card`, `rules.unknown-name`, `rules.unknown-column`, `rules.bad-count`,
/// `rules.count-differs`, `rules.count-of-none`, `rules.raw-html`, `rules.broken-link`,
/// `rules.too-deep`, `rules.too-large`, `rules.empty`, `face.unknown-symbol` and what the shelf
/// says of pictures, each at its line and column.
[[nodiscard]] Checked<Manuscript> read_manuscript(const pieces::Studio& studio,
                                                  const game::RulesWishes& wishes,
                                                  const std::vector<std::string>& credits);

/// The text may have so many bytes: more than any rules need, and little enough to be set in a
/// second or two.
inline constexpr std::size_t longest_rules = 200'000;

}  // namespace quoin::rules
