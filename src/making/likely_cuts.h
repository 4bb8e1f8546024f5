#pragma once
#include <array>
#include <cstdint>
#include <string>
#include <vector>

#include "making/tolerance.h"

namespace quoin::making {

/// Where the four cuts of one card fall on its print: its corners, clockwise from the top left, in
/// the frame of the trim.
using FallenCut = std::array<Point, 4>;

/// The cuts of so many cards as they are likely to fall on a face. Drawn at random: the same seed
/// gives the same cuts on every machine. Each edge strays by its own deviation, the print by the
/// register; a normal quantity is taken as the sum of twelve even ones less six.
[[nodiscard]] std::vector<FallenCut> fallen_cuts(const FaceTolerance& face,
                                                 const press::ErrorBudget& errors, int cards,
                                                 std::uint64_t seed);
/// How many are drawn in a picture: enough for a cloud, few enough to tell lines apart.
inline constexpr int usual_fallen_cuts = 40;

/// What becomes of a face at the place of the run where cuts stray most, a line each:
/// "1 in 40 shows a white edge", "none is clipped", "1 in 5 has a crooked border" (only where there
/// is a border).
[[nodiscard]] std::vector<std::string> chance_words(const FaceFacts& face,
                                                    const FaceTolerance& tolerance);

/// What a face has of one thing that helps against stray cuts, and what it takes to keep the chance
/// of that fault at the maker's target.
struct Remedy {
  std::string what;   ///< "border", "bleed", "safe area"
  std::string has;    ///< "1.5 mm", "none needed"
  std::string needs;  ///< "3.6 mm or none"
  bool is_enough = true;
};
/// Border (where there is one), bleed and safe area of a face on that side of the cards.
[[nodiscard]] std::vector<Remedy> remedies(const FaceFacts& face, const FaceTolerance& tolerance,
                                           const SideTolerance& side, double target);

}  // namespace quoin::making
