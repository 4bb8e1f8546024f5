#include "job/rules_shown.h"

#include <fmt/format.h>

#include "job/printer/known_printer.h"

namespace quoin::job {

void fold_rules(const Wishes& wishes, Workshop& shop, Outcome& outcome, Diagnostics& found) {
  if (!outcome.game.rules || !wishes.only.empty()) return;
  const std::vector<std::string> credits =
      wishes.credits.empty() ? game::credits(outcome.game) : wishes.credits;
  Checked<std::optional<rules::Leaflet>> made = rules::make_leaflet(
      shop.studio(), shop.typesetter(), pack::rules_rooms(outcome.game), credits);
  for (Diagnostic& problem : made.found) found.push_back(std::move(problem));
  outcome.rules = std::move(made.value);
  if (!outcome.rules) return;
  outcome.rules_sheets = pack::lay_rules(outcome.game, *outcome.rules, wishes.decks);
  if (wishes.parts.contains(Part::home)) print_rules_for_printer(outcome, found);
  if (outcome.rules->whole_sheet || !outcome.game.box) return;
  if (outcome.game.box->places.contains("leaflet")) return;
  outcome.game.box->leaflet = outcome.rules->form.thickness;
}

void check_rules_in_box(const Outcome& outcome, Diagnostics& found) {
  if (!outcome.rules || !outcome.box || !outcome.game.box || outcome.rules->whole_sheet) return;
  const rules::Form& form = outcome.rules->form;
  const game::BoxWishes& box = *outcome.game.box;
  const fold::Block& room = outcome.box->fit.clear.size;
  if (!fits(form.folded.width, room.width) || !fits(form.folded.height, room.height)) {
    found.push_back(
        Diagnostic(Id::rules_larger_than_box, outcome.game.rules->place("size"),
                   fmt::format("the folded rules are {:.1f} x {:.1f} mm, and the folded box has "
                               "{:.1f} x {:.1f} mm of room",
                               form.folded.width.value, form.folded.height.value, room.width.value,
                               room.height.value))
            .hint(fmt::format("write size = [{:.0f}, {:.0f}] under [rules]",
                              (room.width - rules::play_in_box).value - 0.5,
                              (room.height - rules::play_in_box).value - 0.5)));
  }
  constexpr Mm tells{0.3};  // less than the thickness of a card
  if (!box.places.contains("leaflet") || abs(box.leaflet - form.thickness) <= tells) return;
  found.push_back(
      Diagnostic(Id::rules_thickness_differs, box.place("leaflet"),
                 fmt::format("the box allows {:.1f} mm for the rules, which are {:.1f} mm thick "
                             "when folded",
                             box.leaflet.value, form.thickness.value))
          .hint(fmt::format("leave leaflet out, or write leaflet = {:.1f}", form.thickness.value)));
}

}  // namespace quoin::job
