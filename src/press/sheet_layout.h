#pragma once
#include <array>
#include <cstdint>
#include <optional>
#include <vector>

#include "game/game.h"
#include "geometry/geometry.h"

namespace quoin::press {

/// The sheet that a printer is measured with: where each of its marks is, in millimetres. What is
/// drawn from it and what is looked for in its scans come from here.
///
/// Places are in the page frame of the side that they are printed on (top left, y down, upright as
/// read). Dots and codes of the two sides lie on rows half a step apart, whichever edge the sheet
/// is turned about, so that none shines through another; 8 mm round each pin target are clear.

enum class SheetSide { front, back };

/// A black square of 7 by 7 modules, the outermost ring black, the inner 5 by 5 its code row after
/// row from the top left, a set bit black. It tells which side a picture shows and how it lies.
struct CodeMark {
  int number = 0;  ///< 0 to 7 on fronts, 8 to 15 on backs: index into `code_bits`
  Point centre;
};
inline constexpr Mm code_size{10.5};
inline constexpr int code_modules = 7;
/// The codes, 25 bits each, the first bit highest. Of our own make: any two differ in 8 bits or
/// more however either is turned or mirrored, and so does each from itself turned or mirrored.
[[nodiscard]] const std::array<std::uint32_t, 16>& code_bits();

inline constexpr Mm dot_size{4};

/// A ring to prick the middle of, on the front only. The six are not alike under a half turn, so
/// that the holes alone tell about which edge the sheet was turned.
inline constexpr Mm pin_ring{10};
inline constexpr Mm pin_clear{8};  ///< radius

/// A scale of the front, 1 mm from line to line, that meets one of the back, 0.95 mm, at its
/// middle: the back lies one twentieth of a millimetre further on for each line. Lines are numbered
/// from -10 to 10, those of the front to ±12, towards the right or downwards on the front.
struct Vernier {
  int number = 1;  ///< 1 to 8: odd ones read across, even ones down
  Point at;        ///< its middle, in the page frame of the front
  [[nodiscard]] bool across() const { return number % 2 == 1; }
};
inline constexpr Mm front_pitch{1};
inline constexpr Mm back_pitch{0.95};
inline constexpr int front_lines = 12, back_lines = 10;

/// A letter near a corner: A to D clockwise from the top left on fronts. On backs E to H lie behind
/// them, E behind A, when the sheet was turned as it was made for.
struct CornerLetter {
  char letter = 'A';
  Point at;  ///< page frame of the front, for those of the back too
};

/// A bar to be measured with a ruler, along a straight line.
struct ScaleBar {
  Mm length;
  Point from;
  bool upright = false;
};

struct SheetLayout {
  Size paper;
  std::array<std::vector<Point>, 2> dots;      ///< of each side
  std::array<std::vector<CodeMark>, 2> codes;  ///< of each side
  std::array<Point, 6> pins;                   ///< page frame of the front
  std::array<Vernier, 8> verniers;             ///< two near each corner, A to D
  std::array<CornerLetter, 4> letters;         ///< of the front
  std::array<CornerLetter, 4> letters_behind;  ///< of the back, as seen from the front
  std::array<ScaleBar, 2> bars;                ///< 150 and 200 mm, on the front
  Rect words;                                  ///< free for words on both sides

  [[nodiscard]] const std::vector<Point>& dots_of(SheetSide side) const {
    return dots[side == SheetSide::front ? 0 : 1];
  }
  [[nodiscard]] const std::vector<CodeMark>& codes_of(SheetSide side) const {
    return codes[side == SheetSide::front ? 0 : 1];
  }
};

/// Paper that the sheet has room on: 200 to 330 mm by 250 to 480 mm, either way round.
[[nodiscard]] bool takes_sheet(Size paper);

/// The layout for paper of that size as it is read; `takes_sheet` must hold (`std::logic_error`).
[[nodiscard]] SheetLayout sheet_layout(Size paper);

/// The map that takes a place of the front's page frame to the one behind it in the back's page
/// frame: a mirror about the upright middle when the sheet is turned about its upright edge, about
/// the level one otherwise. The same as `sheets::behind`, for this floor.
[[nodiscard]] Affine turned_over(Size paper, game::FlipEdge flip);

}  // namespace quoin::press
