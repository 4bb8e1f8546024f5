#pragma once
#include <optional>
#include <string>
#include <vector>

#include "making/cutting.h"
#include "pieces/card/measure_face.h"
#include "press/correction.h"
#include "press/tolerance.h"
#include "scene/scene.h"

namespace quoin::making {

/// How well backs meet fronts: standard deviations of what is left when whatever is the same on
/// every sheet was taken off.
struct Register {
  Mm shift;
  Angle turn;
  bool is_assumed = true;  ///< neither said by the maker nor measured
};

/// What [printer] says, else what is usual for its kind (`press::usual_spread`), and within 0.5 mm
/// for cards that are folded. 19 in 20 lie within, which is taken as two deviations. Common
/// practice, no source.
[[nodiscard]] Register usual_register(const game::Game& game);

/// What was measured from sheet to sheet; what is the same on every sheet is corrected.
[[nodiscard]] Register measured_register(const press::Profile& printer);

/// One distinct face of a run, as the workshop draws it.
struct FaceFacts {
  std::string piece;  ///< "W-07", "back of main"
  bool is_back = false;
  Origin row;
  pieces::FaceMeasure measure;
};

/// What will become of one face. Sides are those of the card, whichever way it lies on the sheet.
struct FaceTolerance {
  press::Margins margins;
  press::Chances chances;   ///< on the average over the places where it lies on the sheets
  press::Chances at_worst;  ///< at the place of the run where cuts stray most
  int places = 0;           ///< how often it lies on the sheets
};

/// What fronts, or backs, have to reckon with.
struct SideTolerance {
  press::ErrorBudget worst;  ///< at the place of the run where cuts stray most
  press::Needed needed;      ///< there, for the maker's target
};

struct Tolerances {
  Register registration;
  Mm cut_within;  ///< 19 of 20 of the worst cuts lie within
  Mm feed;        ///< deviation of a print on its sheet; counts where sheets are cut in piles
  SideTolerance front, back;
  std::vector<FaceTolerance> faces;  ///< one for each face that was given
  double rough_corners = 0;  ///< chance that a card has a corner with a step; 0 without a punch
  double spoilt = 0;       ///< cards of the run with a white edge or something clipped, on average
  int spoilt_at_most = 0;  ///< in 95 runs of 100
  int spares = 0;          ///< spare sheets of each form, for 95 %
  int spare_sheets = 0;    ///< all of them
};

/// A sliver narrower than this is not seen at arm's length. Common practice, no source.
inline constexpr Mm seen_sliver{0.2};

/// A step from here on is seen and felt where a punched corner meets its edge. Common practice, no
/// source.
inline constexpr Mm felt_step{0.3};

/// The errors along the real cut plan (`cut::edge_errors`), with what sheets stray in their piles,
/// the register for backs and the punch for corners, all independent of each other, turned into the
/// chances of each face and into spares. `faces` are fronts and then backs, as the plan counts
/// them. Bleed is what the sheets leave of it: towards a neighbour half the gutter, all of it where
/// cards touch or their edges are alike, and without end where there is no ink at the edge. No
/// spares are given when more than a fifth of the cards would be spoilt.
[[nodiscard]] Tolerances tolerances(const game::Game& game, const sheets::Plan& plan,
                                    const Cutting& cutting, const std::vector<FaceFacts>& faces,
                                    int fronts, const Register& registration);

/// `tolerance.white-edge`, `tolerance.lopsided-border`, `tolerance.clipped` for faces above the
/// maker's target, `tolerance.rough-corners` and `tolerance.spares`.
[[nodiscard]] Diagnostics check_tolerances(const game::Game& game, const Tolerances& tolerances,
                                           const std::vector<FaceFacts>& faces);
/// `sheet.too-heavy` when the stock is heavier than what [printer] says that the printer takes, or
/// else the profile of the printer that was measured (null: none).
[[nodiscard]] Diagnostics check_weight(const game::Game& game, const press::Profile* printer);

/// `tolerance.fold-instead`: where more than `hopeless` of the cards would have a back with a
/// crooked border, or a white edge though it had 5 mm of bleed, and folding would halve that. For
/// sheets whose backs are forms of their own.
[[nodiscard]] Diagnostics check_backs_meet(const game::Game& game, const Tolerances& tolerances,
                                           int fronts);
/// Two cards in three; a choice of ours, no source.
inline constexpr double hopeless = 2.0 / 3;
/// The widest bleed that backs are taken to get. Common practice, no source.
inline constexpr Mm widest_bleed{5};
/// How far folded backs stray, as a standard deviation. Common practice, no source.
inline constexpr Mm fold_strays{0.25};

/// "1 in 5", "1 in 40", "nearly all": a chance as a person says it.
[[nodiscard]] std::string in_words(double chance);

/// The card with `art` on it (in the trim's frame), its trim, safe area and bleed, and the cuts of
/// forty cards as they are likely to fall, drawn at random with the seed; beside it its top left
/// corner five times as large. `room` large, texts not set.
[[nodiscard]] Scene cut_cloud(const FaceTolerance& face, const press::ErrorBudget& errors,
                              const Scene& art, Size room, std::uint64_t seed);

}  // namespace quoin::making
