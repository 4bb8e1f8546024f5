#include "trace/drawing/colour_words.h"

#include <array>
#include <cmath>
#include <numbers>

namespace quoin::trace {
namespace {

struct Hue {
  double until;  // degrees of the CIE hue angle
  std::string_view dark, middle, light;
};

/// Round the circle from red; the words for L* under 36, up to 72, and over.
constexpr std::array<Hue, 11> hues{{{20, "dark red", "rose", "pink"},
                                    {48, "dark red", "red", "salmon"},
                                    {70, "brown", "orange", "apricot"},
                                    {84, "brown", "ochre", "orange"},
                                    {108, "olive", "ochre", "yellow"},
                                    {128, "dark green", "olive green", "lime"},
                                    {165, "dark green", "green", "light green"},
                                    {222, "dark teal", "teal", "turquoise"},
                                    {255, "dark blue", "blue", "light blue"},
                                    {307, "dark blue", "blue", "light blue"},
                                    {336, "dark purple", "purple", "lilac"}}};

std::string grey_words(double lightness) {
  if (lightness < 12) return "black";
  if (lightness < 35) return "dark grey";
  if (lightness < 68) return "grey";
  return lightness < 96 ? "light grey" : "white";
}

}  // namespace

std::string colour_words(Colour colour) {
  const Lab lab = to_lab(colour);
  const double chroma = std::hypot(lab.a, lab.b);
  if (lab.l < 6 || chroma < 5 || (lab.l > 97 && chroma < 8)) return grey_words(lab.l);
  double angle = std::atan2(lab.b, lab.a) * 180 / std::numbers::pi;
  if (angle < 0) angle += 360;
  const auto found = [&]() -> const Hue& {
    for (const Hue& hue : hues) {
      if (angle < hue.until) return hue;
    }
    return hues.front();
  }();
  if (angle >= hues.back().until) {
    return lab.l < 36 ? "dark magenta" : lab.l < 72 ? "magenta" : "pink";
  }
  const std::string words(lab.l < 36 ? found.dark : lab.l < 72 ? found.middle : found.light);
  if (chroma >= (lab.l < 36 ? 10 : 18)) return words;
  // Of so little colour that it is a tinted grey.
  if (lab.l > 88) return angle > 40 && angle < 115 ? "cream" : "pale " + std::string(found.middle);
  return "greyish " + std::string(lab.l < 36 ? found.dark : found.middle);
}

std::string fill_words(const Fill& fill) {
  if (const Colour* colour = std::get_if<Colour>(&fill)) {
    const std::string words = colour_words(*colour);
    return colour->alpha < 1 ? "see-through " + words : words;
  }
  const auto* radial = std::get_if<RadialFill>(&fill);
  const auto& stops = radial != nullptr ? radial->stops : std::get<LinearFill>(fill).stops;
  const std::string first = colour_words(stops.front().colour);
  const std::string last = colour_words(stops.back().colour);
  return first == last ? first + " shading" : first + " to " + last;
}

}  // namespace quoin::trace
