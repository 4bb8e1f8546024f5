#include "trace/pixels/areas.h"

#include "trace/pixels/explain.h"
#include "trace/pixels/lettering.h"
#include "trace/pixels/shading.h"

namespace quoin::trace {
namespace {

constexpr int most_colours = 40;
constexpr double speck = 3, noisy_speck = 6;  // pixels

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

/// Whether areas of one colour really are of one colour: a picture that went through JPEG has faint
/// ripples even where no noise is measured. Gradients have them too; their bands need no
/// explaining.
bool is_even(const Areas& areas) {
  constexpr double most_uneven = 0.08;
  std::int64_t pairs = 0, differing = 0;
  for (int y = 0; y < areas.pixels.height(); ++y) {
    for (int x = 0; x + 1 < areas.pixels.width(); ++x) {
      if (!areas.core.flat(x, y) || !areas.core.flat(x + 1, y)) continue;
      ++pairs;
      differing += areas.pixels.at(x, y) == areas.pixels.at(x + 1, y) ? 0 : 1;
    }
  }
  return static_cast<double>(differing) <= most_uneven * static_cast<double>(pairs);
}

/// Puts colours into the palette that only narrow stripes and dots have; false when there are none.
bool add_missing(Areas& areas, const Grid<int>& cells) {
  constexpr int most_added = 6;
  const std::vector<Three> missing = missing_colours(
      cells, areas.coloured(), std::min(most_added, most_colours - areas.palette.size()));
  for (const Three& lab : missing) {
    areas.palette.lab.push_back(lab);
    areas.palette.srgb.push_back(srgb_of(lab));
  }
  return !missing.empty();
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
  const bool wished = wishes.colours > 0 || !wishes.palette.empty();
  const bool is_clean = noise.sigma <= 0 && is_even(areas);
  if (is_clean && !wished) {
    areas.palette = with_exact_colours(areas.palette, areas.pixels, areas.core, most_colours);
  }
  const Coloured coloured = areas.coloured();
  Grid<int> cells = label_cells(coloured);
  if (is_clean) {
    explain_pixels(cells, coloured);
    if (!wished && add_missing(areas, cells)) {
      cells = label_cells(coloured);
      explain_pixels(cells, coloured);
    }
  }
  const double least = noise.sigma > 0 ? noisy_speck : speck;
  areas.regions = without_specks(std::move(cells), coloured, {least, noise.sigma, most_faces});
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
