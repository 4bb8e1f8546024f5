#pragma once
#include <optional>
#include <string_view>

#include "base/diagnostic.h"
#include "press/profile.h"

namespace quoin::press {

/// Whether what was measured once still holds for these cards.

/// `press.other-stock` at `asked` when the profile says that it was measured on another stock, as
/// far as words can tell: where both say a weight in g/m² ("250 g/m²", "250 gsm", "250g"), one that
/// differs by more than a tenth; else names that have no word in common. Nothing when one of them
/// says neither. The tenth is a choice of ours, no source.
[[nodiscard]] std::optional<Diagnostic> other_stock(const Profile& profile,
                                                    const game::Stock& stock, const Origin& asked);

/// `press.measured-long-ago` at `asked` when more than a year lies between the profile's day and
/// `today` ("2026-11-28"). Nothing when either is not known.
[[nodiscard]] std::optional<Diagnostic> measured_long_ago(const Profile& profile,
                                                          std::string_view today,
                                                          const Origin& asked);

/// The first weight that words about a paper name, in g/m².
[[nodiscard]] std::optional<double> grammage_in(std::string_view words);

}  // namespace quoin::press
