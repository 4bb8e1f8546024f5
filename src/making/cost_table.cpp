#include <fmt/format.h>

#include <algorithm>

#include "making/costs.h"
#include "sheets/wording.h"

namespace quoin::making {
namespace {

using Row = CostTable::Row;

/// One row: what `of` says of each run.
template <typename Of>
Row row_of(std::string what, const Costs& costs, const Of& of) {
  Row row{std::move(what), {}};
  for (const RunCosts& run : costs.runs) row.values.push_back(of(run));
  return row;
}

template <typename Is>
bool any_run(const Costs& costs, const Is& is) {
  return std::any_of(costs.runs.begin(), costs.runs.end(), is);
}

CostTable::Group stuff_group(const Costs& costs) {
  CostTable::Group group{"Paper, ink and glue", {}};
  const auto whole = [&](const char* what, int Stuff::*number) {
    if (!any_run(costs, [&](const RunCosts& run) { return run.stuff.*number > 0; })) return;
    group.rows.push_back(row_of(
        what, costs, [&](const RunCosts& run) { return fmt::format("{}", run.stuff.*number); }));
  };
  whole("Sheets of cards", &Stuff::sheets);
  whole("Spare sheets", &Stuff::spare_sheets);
  whole("Sheets of board", &Stuff::board_sheets);
  whole("Sheets of rules", &Stuff::rules_sheets);
  whole("Sheets of the mat", &Stuff::mat_sheets);
  whole("Sleeves", &Stuff::sleeves);
  constexpr const char* plates[] = {"cyan", "magenta", "yellow", "black"};
  for (std::size_t plate = 0; plate < 4; ++plate) {
    group.rows.push_back(row_of(fmt::format("Each side of cards covered with {}", plates[plate]),
                                costs, [&](const RunCosts& run) {
                                  return fmt::format("{:.0f} %", run.stuff.cover[plate] * 100);
                                }));
  }
  if (any_run(costs, [](const RunCosts& run) { return run.stuff.glue > 0; })) {
    group.rows.push_back(row_of("Glue", costs, [](const RunCosts& run) {
      return fmt::format("{:.1f} ml", run.stuff.glue);
    }));
  }
  return group;
}

CostTable::Group time_group(const Costs& costs) {
  CostTable::Group group{"Time", {}};
  const auto timed = [&](const char* what, double Work::*part) {
    if (!any_run(costs, [&](const RunCosts& run) { return run.work.*part > 0; })) return;
    group.rows.push_back(
        row_of(what, costs, [&](const RunCosts& run) { return time_words(run.work.*part); }));
  };
  timed("Print", &Work::print);
  timed("Cut", &Work::cut);
  timed("Round the corners", &Work::round);
  timed("Make the boxes", &Work::box);
  timed("Cut and fold the rules", &Work::rules);
  timed("Put the mats together", &Work::mat);
  group.rows.push_back(
      row_of("In all", costs, [](const RunCosts& run) { return time_words(run.work.all()); }));
  group.rows.back().is_sum = true;
  return group;
}

/// What has a price in any of the runs, in the order of the first that has it.
std::vector<std::string> priced(const Costs& costs) {
  std::vector<std::string> names;
  for (const RunCosts& run : costs.runs) {
    for (const CostLine& line : run.lines) {
      if (std::find(names.begin(), names.end(), line.what) == names.end()) {
        names.push_back(line.what);
      }
    }
  }
  return names;
}

CostTable::Group money_group(const game::Prices& prices, const Costs& costs) {
  CostTable::Group group{"Money", {}};
  for (const std::string& name : priced(costs)) {
    std::string title = name;
    title.front() = static_cast<char>(title.front() - 'a' + 'A');
    group.rows.push_back(row_of(title, costs, [&](const RunCosts& run) {
      const auto line = std::find_if(run.lines.begin(), run.lines.end(),
                                     [&](const CostLine& one) { return one.what == name; });
      return line == run.lines.end() ? std::string("–") : money_words(line->sum, prices);
    }));
  }
  if (group.rows.empty()) return group;
  group.rows.push_back(
      row_of("In all", costs, [&](const RunCosts& run) { return money_words(run.sum, prices); }));
  group.rows.push_back(row_of(
      "Each deck", costs, [&](const RunCosts& run) { return money_words(run.each(), prices); }));
  group.rows.back().is_sum = true;
  return group;
}

}  // namespace

CostTable cost_table(const game::Game& game, const Costs& costs) {
  const game::Prices& prices = game.making.prices;
  CostTable table;
  if (costs.runs.empty()) return table;
  for (const RunCosts& run : costs.runs) table.decks.push_back(run.decks);
  table.groups = {stuff_group(costs), time_group(costs)};
  CostTable::Group money = money_group(prices, costs);
  if (!money.rows.empty()) table.groups.push_back(std::move(money));
  for (const QuotedCosts& quoted : costs.quoted) {
    const game::Quotation& one = quoted.quotation;
    table.quotations.push_back(
        fmt::format("{}: {} for {}, {} a deck{}{}", one.name, money_words(one.price, prices),
                    sheets::counted(one.decks, "deck"), money_words(quoted.each, prices),
                    one.note.empty() ? "" : "; ", one.note));
  }
  if (prices.is_example) table.notes.push_back("the prices are an example, of no shop");
  for (const std::string& what : costs.runs.front().not_priced) {
    table.notes.push_back(fmt::format("there is no price for {} under [prices]", what));
  }
  table.notes.push_back(times_words(game.making.times));
  return table;
}

}  // namespace quoin::making
