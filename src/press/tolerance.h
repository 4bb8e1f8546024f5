#pragma once
#include <cstdint>
#include <vector>

#include "geometry/geometry.h"

namespace quoin::press {

/// Standard deviations of what goes astray between the drawing and the finished card. Each is
/// independent of the others; what is the same on every sheet was measured and taken off before.
struct ErrorBudget {
  Mm cut_left, cut_top, cut_right, cut_bottom;  ///< of each cut against the print of the front
  Mm shift_x, shift_y;  ///< of the whole print against the marks that are cut by: for fronts how
                        ///< sheets stray in a pile, 0 for a single one; for backs the register too
  Angle turn;           ///< of that print against the marks
};

/// A card's face as the blade meets it.
struct Margins {
  Size trim;
  Mm bleed;   ///< ink past the trim
  Mm safe;    ///< from the trim to the nearest thing that must not be cut: type, a line
  Mm border;  ///< width of an even border round the picture; 0 when there is none
};

/// A border looks lopsided when its narrow side is less than this part of the wide one across the
/// card. Common practice, no source; settable.
inline constexpr double usual_evenness = 0.6;

/// The chances of one face, 0 to 1.
struct Chances {
  double white_edge = 0;  ///< paper shows past the bleed on at least one side
  double clipped = 0;     ///< the blade goes into what must be kept
  double lopsided = 0;    ///< the border is uneven across or along
};

/// Chances in closed form, for prints that are moved and not turned (`turn` counts as the shift
/// that it makes at the middle of each side's far end: half the other side times the angle).
///
/// Along one way the two cuts err by c1 and c2 and the print by s, all normal about 0: no paper
/// shows with chance E[Phi((b-s)/c1)·Phi((b+s)/c2)], integrated over s by Simpson's rule; both ways
/// are independent. Lopsided: with l and r the two borders, l - q·r is normal with mean (1-q)·B and
/// variance c1² + q²·c2² + (1+q)²·s²; either side may be the narrow one (the events exclude each
/// other for borders that are there). Normal errors: ISO/IEC Guide 98-3 (GUM), 4.3 and 5.1.2.
[[nodiscard]] Chances chances(const Margins& margins, const ErrorBudget& errors,
                              double evenness = usual_evenness);

/// The same by drawing errors `trials` times, turned prints and all: where the closed form only
/// comes near. The same seed gives the same answer.
struct Trials {
  int count = 10'000;
  std::uint64_t seed = 1;
};
[[nodiscard]] Chances simulated_chances(const Margins& margins, const ErrorBudget& errors,
                                        Trials trials, double evenness = usual_evenness);

/// The smallest bleed, safe distance and border that keep a face below a chance of each fault.
struct Needed {
  Mm bleed, safe, border;
};
/// To 0.01 mm, each up to 50 mm. `chance` in (0, 1).
[[nodiscard]] Needed needed_for(double chance, const Margins& margins, const ErrorBudget& errors,
                                double evenness = usual_evenness);

/// The chance that a card has a corner whose punched round misses one of its edges by more than
/// `step`: four corners, each straying along both of its edges, normal about 0 and independent.
/// 1 - erf(step / (deviation·sqrt 2))^8. 0 for a deviation of 0.
[[nodiscard]] double rough_corner(Mm deviation, Mm step);

/// The deviation of a print against the mark of the top sheet, over all sheets of a pile that is
/// lined up by the edges of its paper: 0 for the top one, sqrt 2 of the feed's for the others; the
/// variance of both together is 2·feed²·(n - 1)/n.
[[nodiscard]] Mm stray_in_pile(Mm feed, int sheets);

/// One card of a deck: its two faces, and what goes astray with each. The blade is the same for
/// both, so the cuts of `back_errors` are not looked at.
struct DeckCard {
  Margins front, back;
  ErrorBudget errors;       ///< of the front
  ErrorBudget back_errors;  ///< its shifts and turn only
};
/// How many cards of a deck are spoilt (a white edge or something clipped, on either face), found
/// by cutting the whole deck `trials.count` times. Each card strays on its own: where a sheet's
/// backs stray together the average is the same and the spread is wider.
struct DeckTrials {
  double spoilt = 0;       ///< on average
  int spoilt_at_most = 0;  ///< in 95 decks of 100
  double lopsided = 0;     ///< cards with a crooked border on either face, on average
};
[[nodiscard]] DeckTrials simulated_deck(const std::vector<DeckCard>& deck, Trials trials,
                                        double evenness = usual_evenness);

/// How many sheets to print so that a whole deck comes out good with the certainty asked for.
/// Each of `forms` kinds of sheet carries `per_sheet` cards, is wanted `copies` times, and each
/// card is spoilt with chance `spoilt`, on its own.
struct PrintRun {
  int forms = 1, per_sheet = 1, copies = 1;
  double spoilt = 0;
};
struct Spares {
  double expected = 0;  ///< cards spoilt, on average, when no spares are printed
  int of_each = 0;      ///< spare sheets of each form
};
/// A form has enough when each of its places has `copies` good cards among copies + spares,
/// binomial; all places of all forms together keep the certainty. At most 1,000 spares.
[[nodiscard]] Spares spares(const PrintRun& run, double certainty = 0.95);

}  // namespace quoin::press
