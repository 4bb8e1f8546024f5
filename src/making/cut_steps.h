#pragma once
#include <string>
#include <vector>

#include "making/cutting.h"
#include "scene/scene.h"

namespace quoin::making {

/// What a person does with one kind of sheet, a line for each step of its plan: turn, set, cut.
///
/// "Turn the sheet a quarter clockwise, so that the fresh edge lies against the fence. Set 88.9 mm.
/// Cut 3 times, the fresh edge against the fence each time: each cut gives a strip." Settings are
/// told to 0.1 mm.
[[nodiscard]] std::vector<std::string> step_words(const Cutting& cutting, const SheetKind& kind);

/// "9 sheets of 9 cards, 2 at a time: 5 stacks of 12 cuts".
[[nodiscard]] std::string kind_words(const SheetKind& kind);

/// What a picture of work is drawn in. It has no ground of its own.
struct StepInk {
  Colour line, quiet;  ///< what is told; what is only told beside it
  Colour paper, card;  ///< blank paper, cards on it
  Colour fence, on_fence, blade;
};
/// On white paper, and on a dark screen.
inline constexpr StepInk on_paper{{0.12, 0.16, 0.2, 1},  {0.4, 0.4, 0.4, 1},   {1, 1, 1, 1},
                                  {0.86, 0.91, 0.93, 1}, {0.45, 0.5, 0.55, 1}, {1, 1, 1, 1},
                                  {0.78, 0.12, 0.1, 1}};
inline constexpr StepInk on_dark{
    {0.94, 0.9, 0.84, 1}, {0.66, 0.72, 0.68, 1}, {0.2, 0.26, 0.26, 1}, {0.32, 0.42, 0.42, 1},
    {0.62, 0.7, 0.68, 1}, {0.08, 0.14, 0.14, 1}, {1, 0.5, 0.38, 1}};

/// A picture of one step, `room` large, its texts not set (house face): what lies under the blade,
/// turned as it lies there with the fence away from the maker; cards, waste hatched, edges that the
/// mill cut grey and fresh ones dark; the cut in red, those that follow at the same setting dashed;
/// the distance from the fence; an arrow when it was turned. At the right the whole sheet in its
/// present state, as it was printed, with the piece that is cut.
[[nodiscard]] Scene step_picture(const Cutting& cutting, const SheetKind& kind, std::size_t step,
                                 Size room, const StepInk& ink = on_paper);
/// A card's corner in the punch, `room` large: what stays, what falls, the radius.
[[nodiscard]] Scene corner_picture(const Corners& corners, Size room,
                                   const StepInk& ink = on_paper);
/// A size in which all of it can be read.
inline constexpr Size usual_step_room{Mm{120}, Mm{80}};

}  // namespace quoin::making
