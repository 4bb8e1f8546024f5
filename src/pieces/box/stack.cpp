#include "pieces/box/stack.h"

#include <fmt/format.h>

#include <algorithm>

#include "game/paper_classes.h"

namespace quoin::pieces {
namespace {

constexpr double lot_spread = 0.05;   // of a stated caliper
constexpr double pile_spread = 0.02;  // of a measured pile
constexpr Mm usual_card{0.30};

Range times(const Range& one, double factor) {
  return {one.low * factor, one.typical * factor, one.high * factor};
}

Range spread(Mm typical, double part) {
  return {typical * (1 - part), typical, typical * (1 + part)};
}

Diagnostic assumed_thickness(const Contents& contents) {
  Diagnostic problem(
      Id::box_card_thickness_assumed, contents.stock.origin,
      fmt::format("how thick the cards are is not said, so the box is made for {} cards "
                  "of 0.30 mm",
                  contents.cards));
  problem.detail("a card of 0.25 or 0.35 mm makes the deck a sixth thinner or thicker");
  return problem.hint(
      "write caliper = 0.30 under [stock], or better measure a pile: pile = [60, 19.4] under "
      "[box]");
}

Range card_thickness(const Contents& contents, const game::BoxWishes& wishes, Diagnostics& found) {
  if (wishes.pile) return spread(wishes.pile->height / wishes.pile->cards, pile_spread);
  const game::Stock& stock = contents.stock;
  if (const auto range =
          caliper_of(stock.caliper, stock.grammage, stock.paper_class, "uncoated-card"))
    return *range;
  found.push_back(assumed_thickness(contents));
  return spread(usual_card, lot_spread);
}

Range air_in(const Range& pile, const game::BoxWishes& wishes) {
  if (wishes.pile) return {};
  const Mm usual = pile.typical * 0.02;
  return {Mm{}, usual, std::max(usual, Mm{0.5})};
}

}  // namespace

fold::Block thinnest(const Deck& deck) {
  return {deck.face.width, deck.face.height, deck.height.low};
}

fold::Block thickest(const Deck& deck) {
  return {deck.face.width, deck.face.height, deck.height.high};
}

std::optional<Range> caliper_of(std::optional<Mm> caliper, std::optional<double> grammage,
                                std::string_view paper_class, std::string_view usual_class) {
  if (caliper) return spread(*caliper, lot_spread);
  const game::PaperClass* paper =
      game::find_paper_class(paper_class.empty() ? usual_class : paper_class);
  if (!grammage || !paper) return std::nullopt;
  const auto thickness = [&](double bulk) { return Mm{*grammage * bulk / 1000}; };
  const Range usual = spread(thickness(paper->usual), lot_spread);
  return Range{std::min(usual.low, thickness(paper->least)), usual.typical,
               std::max(usual.high, thickness(paper->most))};
}

Checked<Deck> deck_of(const Contents& contents, const game::BoxWishes& wishes) {
  Checked<Deck> made;
  Deck& deck = made.value;
  deck.card = card_thickness(contents, wishes, made.found);
  deck.pile = times(deck.card, contents.cards);
  deck.air = air_in(deck.pile, wishes);
  deck.face = contents.card;
  if (wishes.sleeves) {
    deck.face = {(*wishes.sleeves)[0], (*wishes.sleeves)[1]};
    deck.sleeves = (*wishes.sleeves)[2] * contents.cards;
  }
  deck.leaflet = wishes.leaflet;
  const Mm more = deck.sleeves + deck.leaflet;
  deck.height = {deck.pile.low + deck.air.low + more, deck.pile.typical + deck.air.typical + more,
                 deck.pile.high + deck.air.high + more};
  return made;
}

}  // namespace quoin::pieces
