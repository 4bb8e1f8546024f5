#include <fmt/format.h>

#include <functional>

#include "guide/chapters/wording.h"
#include "sheets/wording.h"

namespace quoin::guide {
namespace {

using making::RunCosts;
using Cell = std::function<std::string(const RunCosts&)>;

/// A table with a column for each number of decks.
class RunTable {
 public:
  explicit RunTable(const making::Costs& costs) : costs_(costs) {
    table_.head = {""};
    table_.widths = {4};
    for (const RunCosts& run : costs.runs) {
      table_.head.push_back(sheets::counted(run.decks, "deck"));
      table_.widths.push_back(3);
    }
  }

  void row(const std::string& what, const Cell& cell) {
    std::vector<std::string> row{what};
    for (const RunCosts& run : costs_.runs) row.push_back(cell(run));
    table_.rows.push_back(std::move(row));
  }
  /// What it has none of is left out of the table.
  [[nodiscard]] const RunCosts& largest() const { return costs_.runs.back(); }
  [[nodiscard]] Table take() { return std::move(table_); }

 private:
  const making::Costs& costs_;
  Table table_;
};

std::string sheets_words(const RunCosts& run) {
  const making::Stuff& stuff = run.stuff;
  return stuff.spare_sheets == 0 ? fmt::format("{}", stuff.sheets)
                                 : fmt::format("{} and {} spare", stuff.sheets, stuff.spare_sheets);
}

double all_ink(const making::Stuff& stuff) {
  return stuff.ink[0] + stuff.ink[1] + stuff.ink[2] + stuff.ink[3];
}

Table stuff_table(const Making& making) {
  RunTable table(making.costs);
  const making::Stuff& most = table.largest().stuff;
  table.row("Sheets of card", sheets_words);
  if (most.board_sheets > 0) {
    table.row("Sheets of board",
              [](const RunCosts& run) { return fmt::format("{}", run.stuff.board_sheets); });
  }
  if (most.rules_sheets > 0) {
    table.row("Sheets of rules",
              [](const RunCosts& run) { return fmt::format("{}", run.stuff.rules_sheets); });
  }
  if (most.mat_sheets > 0) {
    table.row("Sheets of the mat",
              [](const RunCosts& run) { return fmt::format("{}", run.stuff.mat_sheets); });
  }
  if (all_ink(most) >= 0.05) {
    table.row("Ink", [](const RunCosts& run) {
      return fmt::format("{:.1f} sides of A4", all_ink(run.stuff));
    });
    table.row("of which black",
              [](const RunCosts& run) { return fmt::format("{:.1f}", run.stuff.ink[3]); });
  }
  if (most.glue > 0) {
    table.row("Glue", [](const RunCosts& run) { return fmt::format("{:.1f} ml", run.stuff.glue); });
  }
  if (most.sleeves > 0) {
    table.row("Sleeves", [](const RunCosts& run) { return fmt::format("{}", run.stuff.sleeves); });
  }
  return table.take();
}

Table time_table(const Making& making) {
  RunTable table(making.costs);
  const auto add = [&](const char* what, double making::Work::*part) {
    if (table.largest().work.*part <= 0) return;
    table.row(what, [part](const RunCosts& run) { return making::time_words(run.work.*part); });
  };
  add("Printing", &making::Work::print);
  add("Cutting", &making::Work::cut);
  add("Rounding the corners", &making::Work::round);
  add("Boxes", &making::Work::box);
  add("Rules", &making::Work::rules);
  add("Mats", &making::Work::mat);
  table.row("**In all**", [](const RunCosts& run) {
    return fmt::format("**{}**", making::time_words(run.work.all()));
  });
  return table.take();
}

Table money_table(const Making& making) {
  const game::Prices& prices = making.game.making.prices;
  RunTable table(making.costs);
  const auto money = [&prices](double sum) { return as_words(making::money_words(sum, prices)); };
  for (const making::CostLine& line : table.largest().lines) {
    table.row(with_capital(line.what), [&, what = line.what](const RunCosts& run) {
      for (const making::CostLine& one : run.lines) {
        if (one.what == what) return money(one.sum);
      }
      return money(0);
    });
  }
  table.row("**In all**",
            [&](const RunCosts& run) { return fmt::format("**{}**", money(run.sum)); });
  table.row("A deck", [&](const RunCosts& run) { return money(run.each()); });
  return table.take();
}

Table quotation_table(const Making& making) {
  const game::Prices& prices = making.game.making.prices;
  Table table;
  table.head = {"Who", "For", "Asks", "A deck", "And"};
  table.widths = {4, 2, 3, 3, 5};
  for (const making::QuotedCosts& quoted : making.costs.quoted) {
    const game::Quotation& one = quoted.quotation;
    table.rows.push_back({as_words(one.name, 60), sheets::counted(one.decks, "deck"),
                          as_words(making::money_words(one.price, prices)),
                          as_words(making::money_words(quoted.each, prices)), as_words(one.note)});
  }
  return table;
}

/// Where the sums come from, and what is not in them.
std::string money_assumptions(const Making& making) {
  const game::Prices& prices = making.game.making.prices;
  std::string words = prices.is_example
                          ? "The prices are **examples**, of no shop; put in your own "
                            "under [prices] in game.toml."
                          : "The prices are the maker's own.";
  const std::vector<std::string>& missing = making.costs.runs.back().not_priced;
  if (!missing.empty()) words += fmt::format(" No price is known for {}.", listed(missing));
  return words + " Paper for trials, tools and the hours are not in the sums.";
}

}  // namespace

Chapter what_it_takes(const Making& making) {
  Chapter chapter;
  const making::Costs& costs = making.costs;
  if (costs.runs.empty()) return chapter;
  chapter.title = "What it takes";
  chapter.opening = Chapter::Opening::here;
  chapter.blocks.push_back(Heading{"Stuff"});
  chapter.blocks.push_back(stuff_table(making));
  chapter.blocks.push_back(
      Paragraph{"Ink of all four colours is counted as if it lay side by side on whole sides of "
                "A4. Printers mix colours in ways of their own: take it for an estimate. "
                "Ink for the rules and the box is not counted."});
  chapter.blocks.push_back(Heading{"Time"});
  chapter.blocks.push_back(time_table(making));
  chapter.blocks.push_back(Paragraph{
      fmt::format("Reckoned with {}: a patient maker's first deck (common practice, no source).",
                  making::assumed_times(making.game.making.times))});
  if (costs.has_money()) {
    chapter.blocks.push_back(Heading{"Money"});
    chapter.blocks.push_back(money_table(making));
    chapter.blocks.push_back(Paragraph{money_assumptions(making)});
  }
  if (!costs.quoted.empty()) {
    chapter.blocks.push_back(Heading{"What shops ask for"});
    chapter.blocks.push_back(quotation_table(making));
  }
  return chapter;
}

}  // namespace quoin::guide
