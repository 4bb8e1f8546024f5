#pragma once
#include "media/colour.h"
#include "media/picture.h"

namespace quoin {

/// How much of a colour is left where much of it would be printed, the rest is paper: with 0.2 a
/// solid dark ground takes a fifth of its ink and is still told from its neighbours.
inline constexpr double light_part = 0.2;

/// The colour mixed with white in sRGB; its opacity stays.
[[nodiscard]] Colour lightened(Colour colour, double part = light_part);
/// The colour made darker, its hue kept, until it stands out from a lightened ground: 4.5 to 1
/// (WCAG 2.2) on any tint that `lightened` gives. Darker ones stay as they are.
[[nodiscard]] Colour legible_on_light(Colour colour);
/// For lines, which need less: light ones are made darker to about a middle grey.
[[nodiscard]] Colour line_on_light(Colour colour);

/// The drawing of an SVG with its areas lightened and its lines kept: a coloured flood becomes a
/// tint, an outline stays an outline. Fills, gradient stops and pictures in it are lightened, light
/// lines made darker, masks, clips and filters left as they are; drawings without any fill of
/// their own, which would be black, become grey.
///
/// Null when it has colours that are not understood (only names of CSS 2.1, # and rgb() are), or is
/// no SVG: then draw the whole of it with `light_part` as its opacity.
[[nodiscard]] PicturePtr in_light_inks(const Picture& picture);

}  // namespace quoin
