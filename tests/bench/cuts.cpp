// Cuts random sheets and decks and counts what becomes of them: `measured_cuts [COUNT [SEED]]`.
//
// Sheets with 1 to 36 cards, with and without gutters, full and partly filled: the cards must come
// out whole and nothing else be touched. Then the time that a plan takes, and 10,000 decks of 60
// cards, printed and cut in simulation, in processor time of the one thread they take. Exit status
// 1 when a target is missed.
#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <ctime>
#include <string_view>
#include <vector>

#include "chance.h"
#include "cut/simulate.h"
#include "press/tolerance.h"

namespace quoin::bench {
namespace {

constexpr double deck_target = 0.2;  // s
constexpr double plan_target = 1;    // ms

cut::Grid random_sheet(Chance& chance) {
  cut::Grid grid;
  grid.columns = 1 + chance.below(6);
  grid.rows = 1 + chance.below(6);
  grid.piece = {Mm{chance.between(15, 105)}, Mm{chance.between(15, 105)}};
  grid.gutter_x = chance.fraction() < 0.4 ? Mm{} : Mm{chance.between(0.5, 9.5)};
  grid.gutter_y = chance.fraction() < 0.4 ? Mm{} : Mm{chance.between(0.5, 9.5)};
  grid.at = {Mm{chance.between(0.5, 15)}, Mm{chance.between(0.5, 15)}};
  const Rect last = cut::cell(grid, grid.columns - 1, grid.rows - 1);
  const auto past = [&] { return chance.fraction() < 0.1 ? Mm{} : Mm{chance.between(0.5, 20)}; };
  grid.sheet = {last.right() + past(), last.bottom() + past()};
  const int places = grid.columns * grid.rows;
  if (chance.fraction() < 0.5) {
    grid.taken.assign(static_cast<std::size_t>(places), false);
    std::fill_n(grid.taken.begin(), 1 + chance.below(places), true);
  }
  return grid;
}

/// How many sheets did not give exactly their cards.
int spoilt_sheets(int count, Chance& chance) {
  int spoilt = 0;
  for (int i = 0; i < count; ++i) {
    const cut::Grid grid = random_sheet(chance);
    const auto prefer = i % 2 == 0 ? cut::Prefer::fewest_settings : cut::Prefer::least_drift;
    const cut::Cuttings left = cut::simulate(cut::plan_cuts(grid, prefer));
    const auto cards =
        grid.taken.empty()
            ? static_cast<std::size_t>(grid.columns * grid.rows)
            : static_cast<std::size_t>(std::count(grid.taken.begin(), grid.taken.end(), true));
    if (!left.faults.empty() || left.pieces.size() != cards) ++spoilt;
  }
  return spoilt;
}

double seconds_since(std::clock_t begin) {
  return static_cast<double>(std::clock() - begin) / CLOCKS_PER_SEC;
}

/// Milliseconds for one plan: of random sheets on the average, and of the fullest.
double longest_plan(Chance& chance) {
  constexpr int count = 1000;
  std::vector<cut::Grid> sheets;
  for (int i = 0; i < count; ++i) sheets.push_back(random_sheet(chance));
  std::size_t steps = 0;
  const auto plan_all = [&] {
    const std::clock_t begin = std::clock();
    for (const cut::Grid& grid : sheets) {
      steps += cut::plan_cuts(grid, cut::Prefer::least_drift).steps.size();
    }
    return 1000 * seconds_since(begin) / count;
  };
  const double average = plan_all();
  const auto cards = [](const cut::Grid& grid) { return grid.columns * grid.rows; };
  const cut::Grid fullest = *std::max_element(
      sheets.begin(), sheets.end(),
      [&](const cut::Grid& a, const cut::Grid& b) { return cards(a) < cards(b); });
  sheets.assign(count, fullest);
  const double most = plan_all();
  fmt::print(
      "a plan: {:.4f} ms on the average, {:.4f} ms for {} cards, {} steps in all (target {} ms)\n",
      average, most, cards(fullest), steps, plan_target);
  return std::max(average, most);
}

double seconds_for_decks() {
  const press::Margins margins{{Mm{63.5}, Mm{88.9}}, Mm{1}, Mm{3}, Mm{2}};
  const Mm cut{0.3}, shift{0.5};
  const press::DeckCard card{margins,
                             margins,
                             {cut, cut, cut, cut, {}, {}, {}},
                             {cut, cut, cut, cut, shift, shift, Angle::degrees(0.15)}};
  const std::clock_t begin = std::clock();
  const press::DeckTrials tried =
      press::simulated_deck(std::vector<press::DeckCard>(60, card), {10'000, 1});
  const double seconds = seconds_since(begin);
  fmt::print("10000 decks of 60 cards: {:.2f} cards spoilt each, {:.3f} s (target {} s)\n",
             tried.spoilt, seconds, deck_target);
  return seconds;
}

int number(std::string_view text, int otherwise) {
  int value = otherwise;
  std::from_chars(text.data(), text.data() + text.size(), value);
  return value;
}

}  // namespace
}  // namespace quoin::bench

int main(int count, char** words) {
  using namespace quoin::bench;
  const int sheets = count > 1 ? number(words[1], 10'000) : 10'000;
  Chance chance(static_cast<std::uint64_t>(count > 2 ? number(words[2], 1) : 1));
  const int spoilt = spoilt_sheets(sheets, chance);
  fmt::print("{} random sheets: {} cut wrongly\n", sheets, spoilt);
  const bool plans_in_time = longest_plan(chance) <= plan_target;
  const bool decks_in_time = seconds_for_decks() <= deck_target;
  return spoilt == 0 && plans_in_time && decks_in_time ? 0 : 1;
}
