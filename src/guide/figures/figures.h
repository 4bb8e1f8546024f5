#pragma once
#include <vector>

#include "guide/making.h"
#include "guide/slab.h"

namespace quoin::guide {

/// Pictures for the chapters, each drawn from what is really printed, cut or folded. Words within
/// them are not set yet.

/// Small words about a place in a figure.
[[nodiscard]] Item label(const std::string& words, Point middle, Mm width, Colour colour = quiet);
/// A line with a head at its end.
[[nodiscard]] std::vector<Item> arrow(Path way, Point tip, Vec direction, Colour colour);
/// Slanting lines over a rectangle: what is cut away.
[[nodiscard]] Item hatched(Rect area, Colour colour);

/// The finished pieces beside each other at one scale: the box and a fan of cards.
[[nodiscard]] Figure finished_pieces(const Making& making);

/// A side of a sheet of cards, no larger than the room.
[[nodiscard]] Figure sheet_side(const Making& making, std::size_t sheet, sheets::Side side,
                                Size room);
/// Front and back of the first sheet with the axis about which it is turned, and the way. What lies
/// behind each other has the same letter.
[[nodiscard]] Figure turned_sheet(const Making& making);
/// A bar of exactly 100 mm.
[[nodiscard]] Figure true_bar();
/// Register targets of both sides over each other, so far apart.
[[nodiscard]] Figure targets_apart(Mm apart);

/// A corner of a real card: square with the curve on it, and round.
enum class Corner { square, round };
[[nodiscard]] Figure card_corner(const Making& making, Corner corner);
/// Front and back on one side of the paper, and how they are folded.
[[nodiscard]] Figure folded_card(const Making& making);

/// A sheet of the box as it comes out of the printer.
[[nodiscard]] Figure box_sheet(const Making& making);
/// A net with its creases, its cuts or its glue areas told apart from the rest.
enum class NetShows { creases, cuts, glue };
[[nodiscard]] Figure box_net(const BoxMade& made, std::size_t net, NetShows shows);
/// A step of the folding with the panels that move in it tinted.
[[nodiscard]] Figure fold_step(const Making& making, std::size_t step);
/// The finished box, open, with the deck to be seen.
[[nodiscard]] Figure finished_box(const Making& making);
/// The finished mat, or with its sheets over it and their names.
enum class MatShows { finished, sheets };
[[nodiscard]] Figure mat_whole(const Making& making, MatShows shows);
/// Where two sheets of the mat meet, as they are printed: the lower one, the upper one before it is
/// trimmed, and both joined. Only for a mat of several sheets.
enum class MatSeam { lower, upper, joined };
[[nodiscard]] Figure mat_seam(const Making& making, MatSeam shows);
/// The mat's corner as the shop prints it: the cut, and of cloth the hem, folded to the back.
[[nodiscard]] Figure mat_hem(const Making& making);
/// A step of the folding of the rules.
[[nodiscard]] Figure rules_step(const rules::FoldingStep& step);
/// A section through the board: a groove pressed by a blunt point, a cut half through, the fold.
enum class Crease { pressed, half_cut, folded };
[[nodiscard]] Figure crease_section(Crease crease);

}  // namespace quoin::guide
