#include <fmt/format.h>

#include <cmath>

#include "game/reading.h"
#include "game/section.h"
#include "game/words.h"

namespace quoin::game {
namespace {

/// Three numbers of the section, the maker's or the schema's.
std::array<Mm, 3> three(const Node& node) {
  const auto at = [&](std::size_t i) { return Mm{*node.list()->at(i).number()}; };
  return {at(0), at(1), at(2)};
}

std::optional<std::array<Mm, 3>> three_if_given(const Section& section, std::string_view key) {
  const Node* node = section.given(key);
  return node ? std::optional(three(*node)) : std::nullopt;
}

std::optional<MeasuredPile> read_pile(Reading& reading, const Section& section) {
  const Node* node = section.given("pile");
  if (!node) return std::nullopt;
  const double cards = *node->list()->at(0).number();
  if (cards >= 1 && cards == std::floor(cards)) {
    return MeasuredPile{static_cast<int>(cards), Mm{*node->list()->at(1).number()}};
  }
  Diagnostic problem(
      Id::game_out_of_range, node->list()->at(0).origin,
      fmt::format("pile begins with {}; it begins with a whole number of cards, 1 or "
                  "more",
                  number_text(cards)));
  reading.found.add(problem.hint("write pile = [60, 19.4] for 60 cards that are 19.4 mm high"));
  return std::nullopt;
}

NetParts read_parts(const Section& section) {
  const std::string word = section.text("parts");
  if (word == "automatic") return NetParts::automatic;
  return word == "two" ? NetParts::two : NetParts::one;
}

void read_flaps(BoxWishes& box, const Section& section) {
  box.glue_flap = section.length("glue-flap");
  box.tuck = section.length_if_given("tuck");
  box.tuck_play = section.length("tuck-play");
  box.dust_flap = section.length_if_given("dust-flap");
  box.notch = section.length_if_given("notch");
  box.corner = section.length_if_given("corner");
  box.lid_height = section.length_if_given("lid-height");
  box.fit = section.length("fit");
}

}  // namespace

void read_box(Reading& reading, const Table& settings) {
  const Node* whole = find(settings, "box");
  if (!whole || !whole->table()) return;
  const Section section("box", whole->table());
  BoxWishes box;
  box.origin = whole->origin;
  for (const PropertyFacts& facts : keys_of("box")) {
    if (section.has(facts.key)) box.places.emplace(facts.key, section.origin(facts.key));
  }
  box.kind = section.text("kind");
  box.ends = section.text("ends") == "straight" ? Ends::straight : Ends::reverse;
  box.locks = section.text("locks") == "none" ? Locks::none : Locks::slits;
  box.layout = section.text("layout");
  box.bleed = section.length_if_given("bleed");
  box.parts = read_parts(section);
  box.lines = section.text("lines") == "back" ? NetLines::back : NetLines::front;
  box.board.paper_class = section.text("class");
  box.board.grammage = section.number_if_given("grammage");
  box.board.caliper = section.length_if_given("caliper");
  box.inside = three_if_given(section, "inside");
  box.clearance = three(section.value("clearance"));
  box.slack = section.length("slack");
  box.pile = read_pile(reading, section);
  box.sleeves = three_if_given(section, "sleeves");
  box.leaflet = section.length("leaflet");
  read_flaps(box, section);
  reading.game.box = std::move(box);
}

}  // namespace quoin::game
