#pragma once
#include <optional>
#include <string>
#include <vector>

#include "press/correction.h"
#include "sheets/sheets.h"

namespace quoin::making {

/// How far the back of one piece may lie off its front: two standard deviations each way.
struct BackBand {
  Rect trim;  ///< on the front page
  Mm reach_x, reach_y;
};

/// Where the backs of the laid sheets will lie behind their fronts.
struct BackRegister {
  enum class Known {
    assumed,  ///< as is usual for such a printer
    said,     ///< what the maker wrote under [printer]
    measured  ///< a profile of the printer
  };
  Known known = Known::assumed;
  std::string printer;          ///< the profile's id; "" without one
  bool is_corrected = false;    ///< what is the same on every sheet is taken off
  press::Spread spread;         ///< from sheet to sheet, standard deviations
  std::optional<Mm> within;     ///< how well the mean is known, when it was measured
  std::vector<BackBand> bands;  ///< one for each place of the grid
};

/// The register of the sheets of a plan that was laid for `printer`. Nothing when fronts and backs
/// are not printed behind each other (`fold`, `none`).
///
/// With s the deviation of a shift, t that of the turn and a the farthest that the piece's edge
/// reaches from the middle of the sheet across that way: reach = 2·sqrt(s² + (t·a)²), plus `within`
/// (propagation of uncertainty, JCGM 100:2008, 5.1.2; independent, small angles).
[[nodiscard]] std::optional<BackRegister> back_register(
    const game::Game& game, const sheets::Plan& plan, const std::optional<press::Profile>& printer);

/// What a person is told of it, a line each: who says so, how far backs may stray, whether the mean
/// is corrected.
[[nodiscard]] std::vector<std::string> register_words(const BackRegister& backs);

/// "assumed", "said", "measured".
[[nodiscard]] std::string_view to_string(BackRegister::Known known);

}  // namespace quoin::making
