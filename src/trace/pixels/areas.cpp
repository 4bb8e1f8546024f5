#include "trace/pixels/areas.h"

#include "trace/pixels/lettering.h"
#include "trace/pixels/shading.h"

namespace quoin::trace {
namespace {

constexpr int most_colours = 40;
constexpr double speck = 6;  // pixels

Palette wished_palette(const Areas& areas, const Source& source, const TraceWishes& wishes) {
  if (!wishes.palette.empty()) {
    std::vector<Three> colours;
    for (const Colour& c : wishes.palette) {
      colours.push_back({float(c.red * 255), float(c.green * 255), float(c.blue * 255)});
    }
    if (source.has_alpha()) colours.push_back(three(source.ground));
    return palette_of(colours);
  }
  const Palette found = find_palette(areas.lab, areas.core, areas.noise.sigma, most_colours);
  if (wishes.colours <= 0) return found;
  // The transparent ground is no colour of the maker's.
  const int count = wishes.colours + (source.has_alpha() ? 1 : 0);
  return reduced(found, areas.lab, areas.core, count);
}

}  // namespace

Areas find_areas(const Source& source, const TraceWishes& wishes, int scale) {
  const Noise noise = measure_noise(source.pixels);
  Grid<Rgb> pixels = without(noise, source.pixels);
  Grid<Three> lab = lab_of(pixels);
  Core core(lab, noise.sigma);
  Areas areas{scale, noise, std::move(pixels),  {}, std::move(lab), std::move(core), {},
              {},    {},    source.has_alpha(), {}};
  areas.enlarged = enlarged(areas.pixels, scale);
  areas.palette = wished_palette(areas, source, wishes);
  const Coloured coloured = areas.coloured();
  areas.regions = without_specks(label_cells(coloured), coloured, {speck, noise.sigma, most_faces});
  Lettering lettering = find_lettering(areas.regions, scale);
  if (!lettering.lines.empty()) {
    areas.small_text = std::move(lettering.lines);
    areas.regions = connected(lettering.labels, areas.enlarged);
  }
  areas.ramps.resize(areas.regions.all.size());
  return areas;
}

void join_shades(Areas& areas, const Source& source) {
  areas.ramps = join_bands(areas.regions, areas.coloured(), source, areas.noise.sigma);
}

}  // namespace quoin::trace
