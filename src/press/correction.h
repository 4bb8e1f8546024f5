#pragma once
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "press/profile.h"

namespace quoin::press {

/// How pages are to be drawn so that they come out where they were meant: maps of the page frame
/// (mm from the top left, y down) of each side.
struct Correction {
  Affine front, back;
};

/// Makes up for what was measured. With F = the front's scale about the middle, R = `back` of the
/// profile and B = from the front's page frame to what lies behind it (a mirror, its own inverse):
/// a front place p is drawn at C(p) = F^-1(p); the back place B(p) at B(R^-1(C(p))), since the
/// printer puts what is drawn at B(q) behind R(q).
[[nodiscard]] Correction correction(const Profile& profile, Size paper, const Affine& behind);

/// Where the printer that was measured puts what is drawn on each side, in the page frame of that
/// side. With F and R as above: the front by F, the back by B·F·R·B, since a place q of the front's
/// page has behind it the ink that was drawn at B(q), found at R(q) in the front's own print.
/// `correction` is undone by it: both together leave front and back where they were meant.
struct Landing {
  Affine front, back;
};
[[nodiscard]] Landing landing(const Profile& profile, Size paper, const Affine& behind);

/// A sheet as it will be printed.
struct SheetRun {
  Size paper;  ///< as held to be read: width > height means landscape
  game::BackPrinting backs = game::BackPrinting::printer;
  game::FlipEdge flip = game::FlipEdge::long_edge;
  std::string paper_name;
  Origin origin;
};

/// Why sheets that are printed so cannot be corrected by the profile: `press.measured-otherwise`,
/// one for each thing that differs; empty when they can. Sides that are never printed behind each
/// other (`fold`, `none`) differ in paper only.
[[nodiscard]] Diagnostics differences(const Profile& profile, const SheetRun& run);

/// What backs may be off by from sheet to sheet, as standard deviations, when a printer of that
/// kind was not measured. Common practice, no source: automatic duplex at home 1 to 2 mm, fed by
/// hand 1 to 3 mm, a copy shop's press about 0.5 mm, askew by 0.1 to 0.5 degrees; each taken as
/// two deviations.
[[nodiscard]] Spread usual_spread(game::PrinterKind kind, game::BackPrinting backs);

/// How far a print strays on its sheet from one sheet to the next, as a standard deviation, when
/// nothing is said of it. 0.2 to 0.5 mm, general knowledge, no source; taken as two deviations.
[[nodiscard]] Mm usual_feed(game::PrinterKind kind);

/// The distance that a back's edge stays within with 95 in 100, in one direction: 1.96 deviations
/// of shift, and of the turn at `arm` from the middle of the sheet, together; plus `within` where
/// it is known.
[[nodiscard]] Mm reach_of(const Spread& spread, Mm arm, std::optional<Mm> within);

}  // namespace quoin::press
