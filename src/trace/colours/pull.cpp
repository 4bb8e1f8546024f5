#include "trace/colours/pull.h"

#include "trace/colours/plain_areas.h"

namespace quoin::trace {
namespace {

Colour unit_colour(Three srgb) { return {srgb.x / 255.0, srgb.y / 255.0, srgb.z / 255.0, 1}; }

/// What each area becomes: nothing where it stays as it is.
std::vector<std::optional<Three>> pulled_colours(const PlainAreas& areas,
                                                 const std::vector<Colour>& palette, double reach) {
  std::vector<std::optional<Three>> pulled(areas.all().size());
  for (std::size_t i = 0; i < pulled.size(); ++i) {
    if (areas.all()[i].gradient) continue;
    const Lab own = to_lab(unit_colour(areas.all()[i].mean));
    double nearest = reach;
    for (const Colour& colour : palette) {
      const double away = ciede2000(own, to_lab(colour));
      if (away > nearest || (pulled[i] && away == nearest)) continue;
      nearest = away;
      pulled[i] = {float(colour.red * 255), float(colour.green * 255), float(colour.blue * 255)};
    }
  }
  return pulled;
}

std::uint32_t premultiplied(Three srgb, int alpha) {
  const auto part = [&](float value) {
    return static_cast<std::uint32_t>(
        std::clamp(std::lround(double(value) * alpha / 255), 0L, long{alpha}));
  };
  return std::uint32_t(alpha) << 24 | part(srgb.x) << 16 | part(srgb.y) << 8 | part(srgb.z);
}

/// The colour of a pixel between areas, mixed anew; nothing where no side of it changes.
std::optional<Three> mixed_anew(const PlainAreas& areas, int x, int y,
                                const std::vector<std::optional<Three>>& pulled) {
  const std::optional<Mixture> mixture = areas.mixture(x, y);
  if (!mixture) return std::nullopt;
  const auto& first = pulled[std::size_t(mixture->first)];
  const std::optional<Three> none;
  const auto& second = mixture->second < 0 ? none : pulled[std::size_t(mixture->second)];
  if (!first && !second) return std::nullopt;
  const auto part = float(mixture->part);
  const Three a = first.value_or(mixture->first_colour),
              b = second.value_or(mixture->second < 0 ? a : mixture->second_colour);
  const Three anew = a + (b - a) * part;
  if (mixture->off <= areas.tolerance()) return anew;
  // Something else, as a line too thin to be an area: it goes with its surroundings the less, the
  // less it is like them.
  const Three before =
      mixture->first_colour + (mixture->second_colour - mixture->first_colour) * part;
  const auto share = static_cast<float>(std::max(0.0, 2 - mixture->off / areas.tolerance()));
  return areas.colour(x, y) + (anew - before) * share;
}

}  // namespace

Raster pull(const Raster& picture, const std::vector<Colour>& palette, double reach) {
  if (palette.empty() || reach <= 0) return picture;
  const PlainAreas areas(picture);
  const std::vector<std::optional<Three>> pulled = pulled_colours(areas, palette, reach);
  Raster out = picture;
  for (int y = 0; y < areas.height(); ++y) {
    for (int x = 0; x < areas.width(); ++x) {
      if (areas.alpha(x, y) == 0) continue;
      const int area = areas.area(x, y);
      const std::optional<Three> colour =
          area >= 0 ? pulled[std::size_t(area)] : mixed_anew(areas, x, y, pulled);
      if (!colour) continue;
      out.pixels[std::size_t(y) * std::size_t(picture.width) + std::size_t(x)] =
          premultiplied(*colour, areas.alpha(x, y));
    }
  }
  return out;
}

}  // namespace quoin::trace
