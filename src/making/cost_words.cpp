#include <fmt/format.h>

#include <cmath>

#include "making/costs.h"
#include "making/cut_steps.h"
#include "sheets/wording.h"

namespace quoin::making {
namespace {

std::string decks_words(int decks) { return sheets::counted(decks, "deck"); }

std::string listed(const std::vector<std::string>& words) {
  std::string all;
  for (std::size_t i = 0; i < words.size(); ++i) {
    all += (i == 0 ? "" : i + 1 == words.size() ? " and " : ", ") + words[i];
  }
  return all;
}

std::string cutting_line(const Cutting& cutting) {
  const CutTotals sum = totals(cutting);
  std::string words = fmt::format("{} in {}, ", sheets::counted(sum.cuts, "cut"),
                                  sheets::counted(sum.piles, "stack"));
  words += cutting.has_fence ? sheets::counted(sum.settings, "setting") + " of the fence"
                             : fmt::format("{} distances to measure", sum.settings);
  if (cutting.corners.punches > 0) {
    words += fmt::format(", {} corners to punch", cutting.corners.punches);
  }
  return words + fmt::format(" ({})", cut::to_string(cutting.tool.kind));
}

/// "one deck 3.20 EUR, of 20 2.90 EUR each"
std::string price_line(const game::Game& game, const Costs& costs) {
  const game::Prices& prices = game.making.prices;
  std::string words;
  for (const RunCosts& run : costs.runs) {
    words += words.empty() ? "" : ", ";
    words += run.decks == 1
                 ? "one deck " + money_words(run.each(), prices)
                 : fmt::format("each of {} {}", run.decks, money_words(run.each(), prices));
  }
  if (!costs.runs.front().not_priced.empty()) {
    words += ", without " + listed(costs.runs.front().not_priced);
  }
  return words + (prices.is_example ? " (example prices)" : "");
}

std::string amount_line(const Stuff& stuff) {
  std::string words = sheets::counted(stuff.sheets, "sheet");
  if (stuff.spare_sheets > 0) words += fmt::format(" and {} spare", stuff.spare_sheets);
  if (stuff.board_sheets > 0) {
    words += fmt::format(", {} of board", sheets::counted(stuff.board_sheets, "sheet"));
  }
  if (stuff.rules_sheets > 0) words += fmt::format(", {} of rules", stuff.rules_sheets);
  if (stuff.mat_sheets > 0) words += fmt::format(", {} of the mat", stuff.mat_sheets);
  words += fmt::format(
      ", ink on {:.0f} % cyan, {:.0f} % magenta, {:.0f} % yellow, {:.0f} % black of each side of "
      "cards",
      stuff.cover[0] * 100, stuff.cover[1] * 100, stuff.cover[2] * 100, stuff.cover[3] * 100);
  if (stuff.glue > 0) words += fmt::format(", {:.1f} ml of glue", stuff.glue);
  if (stuff.sleeves > 0) words += fmt::format(", {} sleeves", stuff.sleeves);
  return words;
}

}  // namespace

std::string work_words(const Work& work) {
  std::string words = fmt::format("{}: print {}, cut {}", time_words(work.all()),
                                  time_words(work.print), time_words(work.cut));
  if (work.round > 0) words += ", round the corners " + time_words(work.round);
  if (work.box > 0) words += ", box " + time_words(work.box);
  if (work.rules > 0) words += ", rules " + time_words(work.rules);
  if (work.mat > 0) words += ", mat " + time_words(work.mat);
  return words;
}

std::string spares_words(const Tolerances& tolerances) {
  return fmt::format("cuts within {:.1f} mm; {:.1f} cards spoilt on average, {}",
                     tolerances.cut_within.value, tolerances.spoilt,
                     tolerances.spares == 0
                         ? std::string("no spare sheets needed")
                         : "print " + sheets::counted(tolerances.spare_sheets, "spare sheet"));
}

std::string money_words(double sum, const game::Prices& prices) {
  return fmt::format("{:.2f}{}{}", sum, prices.currency.empty() ? "" : " ", prices.currency);
}

std::string assumed_times(const game::Times& times) {
  return fmt::format(
      "{:g} s a printed side, {:g} s a cut, {:g} s a setting, {:g} s a corner, {:g} s a knife "
      "cut, {:g} s a crease, {:g} s a glued seam",
      times.side, times.cut, times.setting, times.corner, times.knife_cut, times.crease,
      times.glue);
}

std::string times_words(const game::Times& times) {
  return "reckoned with " + assumed_times(times) + "; change them under [times]";
}

std::string time_words(double seconds) {
  if (seconds < 60) return fmt::format("{:.0f} s", seconds);
  const long minutes = std::lround(seconds / 60);
  if (minutes < 60) return fmt::format("{} min", minutes);
  if (minutes % 60 == 0) return fmt::format("{} h", minutes / 60);
  return fmt::format("{} h {} min", minutes / 60, minutes % 60);
}

std::vector<std::string> making_lines(const game::Game& game, const Cutting& cutting,
                                      const Tolerances* tolerances, const Costs& costs) {
  std::vector<std::string> lines;
  if (!cutting.kinds.empty()) lines.push_back(cutting_line(cutting));
  if (tolerances != nullptr && !cutting.kinds.empty()) {
    lines.push_back(spares_words(*tolerances));
  }
  if (costs.runs.empty()) return lines;
  lines.push_back(decks_words(costs.runs.front().decks) + " takes about " +
                  work_words(costs.runs.front().work));
  if (costs.has_money()) lines.push_back(price_line(game, costs));
  return lines;
}

std::vector<std::string> cost_lines(const game::Game& game, const Costs& costs) {
  const game::Prices& prices = game.making.prices;
  std::vector<std::string> lines;
  for (const RunCosts& run : costs.runs) {
    lines.push_back(fmt::format("{}: {}", decks_words(run.decks), amount_line(run.stuff)));
    for (const CostLine& line : run.lines) {
      lines.push_back(fmt::format("  {} {}", line.what, money_words(line.sum, prices)));
    }
    if (!run.lines.empty()) {
      lines.push_back(fmt::format("  in all {}, {} a deck{}", money_words(run.sum, prices),
                                  money_words(run.each(), prices),
                                  prices.is_example ? " (example prices)" : ""));
    }
    if (!run.not_priced.empty()) {
      lines.push_back("  no price under [prices] for " + listed(run.not_priced));
    }
    lines.push_back("  " + work_words(run.work));
  }
  for (const QuotedCosts& quoted : costs.quoted) {
    const game::Quotation& one = quoted.quotation;
    lines.push_back(fmt::format("{} asks {} for {}, {} a deck{}{}", one.name,
                                money_words(one.price, prices), decks_words(one.decks),
                                money_words(quoted.each, prices), one.note.empty() ? "" : ": ",
                                one.note));
  }
  lines.push_back(times_words(game.making.times));
  return lines;
}

}  // namespace quoin::making
