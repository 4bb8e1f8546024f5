#pragma once
#include <vector>

#include "cut/plan.h"
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
/// Front and back of the first sheet with the axis about which it is turned, and the way.
[[nodiscard]] Figure turned_sheet(const Making& making);
/// A bar of exactly 100 mm.
[[nodiscard]] Figure true_bar();
/// Register targets of both sides over each other, so far apart.
[[nodiscard]] Figure targets_apart(Mm apart);

/// A sheet before the cuts of a step: what lies on the table with the cards on it, where the blade
/// goes, what lies against the fence, and what falls away. The far edge of what is cut lies at the
/// top, as the maker sees it.
[[nodiscard]] Figure cut_step(const Making& making, const cut::Plan& plan, std::size_t step);
/// Which edge of the sheet that step's picture has at the top.
[[nodiscard]] cut::Edge far_edge(const cut::Plan& plan, std::size_t step);
/// The grid of a plan as the cutter sees it; folded cards with both halves.
[[nodiscard]] cut::Grid cut_grid(const sheets::Plan& plan);

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
/// A section through the board: a groove pressed by a blunt point, a cut half through, the fold.
enum class Crease { pressed, half_cut, folded };
[[nodiscard]] Figure crease_section(Crease crease);

}  // namespace quoin::guide
