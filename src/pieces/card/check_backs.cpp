#include "pieces/card/check_backs.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "pieces/card/check_parts.h"

namespace quoin::pieces {
namespace {

constexpr double square = 2;      // mm
constexpr double sampling = 0.5;  // mm between samples; the raster has 0.25

/// The mean colour of a square and of what the half-turn brings there.
struct Pair {
  Colour upright{0, 0, 0, 1}, turned{0, 0, 0, 1};
};

void add(Colour& sum, Colour colour, double share) {
  sum.red += colour.red * share;
  sum.green += colour.green * share;
  sum.blue += colour.blue * share;
}

Pair pair_at(const Pixels& pixels, Size trim, Point corner) {
  constexpr int side = static_cast<int>(square / sampling);
  constexpr double share = 1.0 / (side * side);
  Pair pair;
  for (int row = 0; row < side; ++row) {
    for (int column = 0; column < side; ++column) {
      const Point place = corner + Vec{Mm{(column + 0.5) * sampling}, Mm{(row + 0.5) * sampling}};
      add(pair.upright, pixels.between(place), share);
      add(pair.turned, pixels.between({trim.width - place.x, trim.height - place.y}), share);
    }
  }
  return pair;
}

std::string where_words(Point place) {
  return fmt::format("{} mm from the left and {} mm from the top", plain(place.x.value, 0),
                     plain(place.y.value, 0));
}

/// The cards of one deck by back, in the order in which the backs first come.
struct BackGroup {
  std::string drawing;
  const DeckBack* first = nullptr;
  int cards = 0, copies = 0;
};
using Groups = std::vector<BackGroup>;

void count_in(Groups& groups, const DeckBack& card) {
  auto group = std::find_if(groups.begin(), groups.end(),
                            [&](const BackGroup& g) { return g.drawing == card.drawing; });
  if (group == groups.end()) group = groups.insert(groups.end(), {card.drawing, &card, 0, 0});
  ++group->cards;
  group->copies += card.copies;
}

std::string group_words(const BackGroup& group) {
  const std::string what = group.drawing.empty() ? "a blank back" : "another back";
  if (group.cards == 1) return fmt::format("{} has {}", group.first->card, what);
  return fmt::format("{} and {} more have {}", group.first->card, group.cards - 1, what);
}

void report_deck(const std::string& deck, const Groups& groups, Diagnostics& found) {
  const auto usual =
      std::max_element(groups.begin(), groups.end(),
                       [](const BackGroup& a, const BackGroup& b) { return a.copies < b.copies; });
  int copies = 0;
  const BackGroup* first_other = nullptr;
  for (const BackGroup& group : groups) {
    copies += group.copies;
    if (&group != &*usual && first_other == nullptr) first_other = &group;
  }
  Diagnostic finding(Id::back_differs_within_deck, first_other->first->origin,
                     fmt::format("deck {} has {} different backs; {} of its {} cards have the "
                                 "usual one",
                                 deck, groups.size(), usual->copies, copies));
  finding.on("back of " + deck);
  constexpr std::size_t shown = 4;
  std::size_t named = 0;
  for (const BackGroup& group : groups) {
    if (&group == &*usual) continue;
    if (named++ < shown) finding.detail(group_words(group));
  }
  if (named > shown) finding.detail(fmt::format("and {} more backs", named - shown));
  finding.hint("give all its cards one back, or make them decks of their own");
  found.push_back(std::move(finding));
}

}  // namespace

HalfTurn half_turn(const FaceLook& look) {
  const Pixels pixels(look.picture, look.bleed);
  const int columns = static_cast<int>(look.trim.width.value / square);
  const int rows = static_cast<int>(std::ceil(look.trim.height.value / 2 / square));
  HalfTurn found;
  double sum = 0;
  for (int row = 0; row < rows; ++row) {
    for (int column = 0; column < columns; ++column) {
      const Point corner{Mm{column * square}, Mm{row * square}};
      const Pair pair = pair_at(pixels, look.trim, corner);
      const double difference = ciede2000(to_lab(pair.upright), to_lab(pair.turned));
      sum += difference;
      if (difference <= found.worst) continue;
      found.worst = difference;
      found.where = corner + Vec{Mm{square / 2}, Mm{square / 2}};
    }
  }
  if (rows * columns > 0) found.mean = sum / (rows * columns);
  return found;
}

Diagnostics check_back(const Face& back, const FaceLook& look) {
  const HalfTurn turn = half_turn(look);
  if (turn.worst < seen_in_the_hand) return {};
  Diagnostic finding(
      Id::back_shows_which_way_up, back.row,
      fmt::format("turned upside down, the back differs from itself by {:.1f}; up to "
                  "{:.1f} goes unseen",
                  turn.worst, seen_in_the_hand));
  finding.on(back.piece)
      .detail(fmt::format("most at {}; {:.1f} on average (CIEDE2000, squares of {} mm)",
                          where_words(turn.where), turn.mean, plain(square, 0)))
      .detail("players can tell which cards were turned round")
      .hint(
          "draw the back so that it looks the same upside down, or silence this with "
          "[checks] off when the cards always lie one way");
  return {finding};
}

Diagnostics check_deck_backs(const std::vector<DeckBack>& cards) {
  std::map<std::string, Groups> decks;
  for (const DeckBack& card : cards) {
    if (card.copies > 0) count_in(decks[card.deck], card);
  }
  Diagnostics found;
  for (const auto& [deck, groups] : decks) {
    if (groups.size() > 1) report_deck(deck, groups, found);
  }
  return found;
}

}  // namespace quoin::pieces
