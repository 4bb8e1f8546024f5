#pragma once
#include <optional>
#include <string>

#include "job/job.h"
#include "press/profile.h"

namespace quoin::job {

/// The printer that the game names under [printer], from the game's own folder or else from
/// `machine_folder` ("" for none). Nothing when the game names none, or when it cannot be read,
/// which is reported.
///
/// Where the game gives no margin the printer's own becomes the game's. Warns with
/// `press.other-stock`.
[[nodiscard]] std::optional<press::Profile> known_printer(const World& world,
                                                          const std::string& machine_folder,
                                                          game::Game& game, Diagnostics& found);

/// Has the sheets of cards, once they are laid, drawn for the printer of the outcome, and says so
/// among their choices. Warns with `press.measured-otherwise`, notes `press.bleed-too-small`.
void print_cards_for_printer(Outcome& outcome, Diagnostics& found);

/// The same for the sheets of the box, and of the rules.
void print_box_for_printer(Outcome& outcome, Diagnostics& found);
void print_rules_for_printer(Outcome& outcome, Diagnostics& found);

/// The same for the sheets of the mat.
void print_mat_for_printer(Outcome& outcome, Diagnostics& found);

}  // namespace quoin::job
