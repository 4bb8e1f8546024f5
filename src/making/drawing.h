#pragma once
#include <string>

#include "scene/scene.h"

namespace quoin::making {

/// The few things that pictures of work are drawn with, on the layer art, in the picture's frame.

[[nodiscard]] Item filled(Path path, Colour colour);
[[nodiscard]] Item stroked(Path path, Colour colour, Mm width);

[[nodiscard]] Path line(Point from, Point to);
/// Slanted lines over all of the box and somewhat past it: clip them.
[[nodiscard]] Path hatch(Rect box, Mm apart);
/// A line with an open head at its end.
[[nodiscard]] Path arrow(Point from, Point to, Mm head);
/// Part of a circle, clockwise for positive degrees, from straight above, with a head at its end.
[[nodiscard]] Path turn_arrow(Point centre, Mm radius, double degrees);

/// How words stand about a point: clockwise degrees, in the house face; not set yet.
struct WordsLook {
  Mm type;
  double turn = 0;
  Colour ink = black;
};
[[nodiscard]] Item words(const std::string& text, Point middle, const WordsLook& look);

}  // namespace quoin::making
