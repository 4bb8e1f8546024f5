#pragma once
#include <array>
#include <optional>
#include <string>
#include <vector>

#include "making/tolerance.h"
#include "pieces/mat/mat.h"
#include "sheets/tiles.h"

namespace quoin::making {

/// Paper, ink and the rest that a run takes.
struct Stuff {
  int sheets = 0;        ///< of the cards' stock
  int spare_sheets = 0;  ///< more of them, see Tolerances
  int board_sheets = 0;  ///< of what the boxes are made of
  int rules_sheets = 0, mat_sheets = 0;
  std::array<double, 4> ink{};    ///< cyan, magenta, yellow, black: A4 sides covered entirely
  std::array<double, 4> cover{};  ///< as a part, 0..1, of a printed side of cards on the average
  double glue = 0;                ///< millilitres
  int sleeves = 0;
};

/// Seconds of hand and printer for a run, step by step.
struct Work {
  double print = 0, cut = 0, round = 0, box = 0, rules = 0, mat = 0;
  [[nodiscard]] double all() const { return print + cut + round + box + rules + mat; }
};

/// One line of a sum.
struct CostLine {
  std::string what;
  double amount = 0;
  double sum = 0;
};

/// So many decks made at home.
struct RunCosts {
  int decks = 1;
  Stuff stuff;
  Work work;
  std::vector<CostLine> lines;          ///< of what has a price
  std::vector<std::string> not_priced;  ///< "ink", "glue": needed and without a price
  double sum = 0;
  [[nodiscard]] double each() const { return sum / decks; }
};

/// What stands beside a run: a shop's price for one deck.
struct QuotedCosts {
  game::Quotation quotation;
  double each = 0;
};

struct Costs {
  std::vector<RunCosts> runs;  ///< by rising number of decks
  std::vector<QuotedCosts> quoted;
  /// Whether anything that is needed has a price.
  [[nodiscard]] bool has_money() const { return !runs.empty() && !runs.back().lines.empty(); }
};

/// What lies beside the cards on paper of its own, for all decks: the rules or the mats.
struct PaperPiece {
  int sheets = 0, sides = 0;  ///< to print
  int cuts = 0;               ///< along a rule
  int slits = 0;              ///< in the middle of a leaf, by knife
  int folds = 0;
  int joints = 0;  ///< sheets stuck to those before them
  /// A4 sides covered entirely by each plate; none where it is not known.
  std::array<double, 4> ink{};
};
/// Each sheet is trimmed where it lies over its neighbours, and the whole on four sides.
[[nodiscard]] PaperPiece mat_work(const pieces::Mat& mat, const sheets::Tiling& tiling, int decks);

/// What one run is reckoned from: the sheets as laid for so many decks, their cuts, and the boxes'
/// sheets.
struct RunFacts {
  int decks = 1;
  const sheets::Plan& plan;
  const Cutting& cutting;
  const Tolerances& tolerances;
  int board_sheets = 0;
  int cards = 0;  ///< of one deck
  PaperPiece rules = {}, mat = {};
};

/// The stuff, money and time of a run. `faces` are those of `tolerances`.
///
/// Ink is what the faces' small pictures show times the area that is printed of each; marks and
/// slugs are left out (a thousandth of a page), and so is what the rules and the box take; that of
/// the mat is what its small picture shows. Glue is a film of 0.1 mm, wet, on the glued areas;
/// common practice, no source. Printing takes the printer's time, and by hand a refeed.
[[nodiscard]] RunCosts run_costs(const game::Game& game, const RunFacts& run,
                                 const std::vector<FaceFacts>& faces, int fronts);

/// [quotations], by rising number of decks, each as the price of one deck.
[[nodiscard]] std::vector<QuotedCosts> quoted_costs(const game::Game& game);

/// Lines for a person: how it is cut and how long it takes, spares, what a deck costs.
[[nodiscard]] std::vector<std::string> making_lines(const game::Game& game, const Cutting& cutting,
                                                    const Tolerances* tolerances,
                                                    const Costs& costs);
/// The sums in full, a line each: amounts, what has no price, the assumptions.
[[nodiscard]] std::vector<std::string> cost_lines(const game::Game& game, const Costs& costs);

/// "cuts within 0.8 mm; 0.1 cards spoilt on average, no spare sheets needed"
[[nodiscard]] std::string spares_words(const Tolerances& tolerances);

/// "46 min: print 4 min, cut 9 min, round the corners 14 min, box 19 min"
[[nodiscard]] std::string work_words(const Work& work);
/// "reckoned with 15 s a printed side, …; change them under [times]"
[[nodiscard]] std::string times_words(const game::Times& times);

/// What runs take as a table for a person: a column for each number of decks.
struct CostTable {
  struct Row {
    std::string what;
    std::vector<std::string> values;  ///< one for each of `decks`
    bool is_sum = false;
  };
  struct Group {
    std::string title;
    std::vector<Row> rows;
  };
  std::vector<int> decks;
  std::vector<Group> groups;            ///< paper and ink, time, money
  std::vector<std::string> quotations;  ///< "copy-shop: 240.00 EUR for 20 decks, 12.00 EUR a deck"
  std::vector<std::string> notes;       ///< what has no price, what is assumed
};
[[nodiscard]] CostTable cost_table(const game::Game& game, const Costs& costs);

/// "3.20 EUR": to a hundredth, in the currency that the game gives.
[[nodiscard]] std::string money_words(double sum, const game::Prices& prices);
/// "15 s a printed side, 10 s a cut, …": what times are reckoned with.
[[nodiscard]] std::string assumed_times(const game::Times& times);

/// "40 s", "25 min", "1 h 40 min".
[[nodiscard]] std::string time_words(double seconds);

}  // namespace quoin::making
