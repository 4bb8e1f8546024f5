#include "trace/drawing/layers.h"

#include <fmt/format.h>

#include <map>

#include "trace/drawing/colour_words.h"

namespace quoin::trace {
namespace {

/// The mean alpha 0..1 of each label over cells inside its regions, 1 for opaque pictures. What is
/// nearly opaque is opaque, what is nearly transparent is transparent.
std::vector<double> label_alphas(const Areas& areas, const Source& source,
                                 const std::vector<Three>& colours) {
  if (!source.has_alpha()) return std::vector<double>(colours.size(), 1);
  struct Sum {
    double alpha = 0;
    int count = 0;
  };
  std::vector<Sum> sums(colours.size());
  const Grid<int>& of = areas.regions.of;
  for (int y = 0; y < source.height(); ++y) {
    for (int x = 0; x < source.width(); ++x) {
      if (!areas.core.flat(x, y)) continue;
      const int label =
          areas.regions.all[std::size_t(of.at(x * areas.scale, y * areas.scale))].label;
      if (label < 0) continue;
      sums[std::size_t(label)].alpha += source.alpha.at(x, y) / 255.0;
      ++sums[std::size_t(label)].count;
    }
  }
  std::vector<double> alphas;
  for (std::size_t i = 0; i < sums.size(); ++i) {
    const bool is_ground = distance(colours[i], three(source.ground)) < 30;
    const double mean = sums[i].count > 0 ? sums[i].alpha / sums[i].count : is_ground ? 0 : 1;
    alphas.push_back(mean < 0.04 ? 0 : mean > 0.96 ? 1 : mean);
  }
  return alphas;
}

Colour colour_of(Three on_ground, double alpha, Rgb ground) {
  Three own = on_ground;
  if (alpha > 0 && alpha < 1) {
    const float share = static_cast<float>(alpha);
    own = (on_ground - three(ground) * (1 - share)) * (1 / share);
  }
  const Rgb c = rgb(own);
  return {c.red / 255.0, c.green / 255.0, c.blue / 255.0, alpha};
}

Fill fill_of(const Ramp& ramp) {
  std::vector<FillStop> stops;
  for (std::size_t i = 0; i < ramp.offsets.size(); ++i) {
    stops.push_back({ramp.offsets[i], colour_of(ramp.colours[i], 1, {})});
  }
  if (ramp.radial) return RadialFill{ramp.from, ramp.radius, std::move(stops)};
  return LinearFill{ramp.from, ramp.to, std::move(stops)};
}

void name_layers(Tracing& tracing) {
  std::map<std::string, int> met;
  for (Layer& layer : tracing.layers) {
    const std::string words = fill_words(layer.fill);
    const int times = ++met[words];
    layer.name = times == 1 ? words : fmt::format("{} {}", words, times);
  }
}

}  // namespace

Paints paints_of(const Areas& areas, const Source& source) {
  Paints paints;
  paints.on_ground = label_colours(areas.regions, areas.coloured(), areas.noise.sigma);
  paints.alpha = label_alphas(areas, source, paints.on_ground);
  for (std::size_t i = 0; i < paints.alpha.size(); ++i) {
    paints.drawn.push_back(colour_of(paints.on_ground[i], paints.alpha[i], source.ground));
  }
  return paints;
}

SideColours make_layers(Tracing& tracing, const Areas& areas, const Paints& paints) {
  SideColours colours;
  colours.labels = paints.on_ground;
  colours.alpha = paints.alpha;
  std::vector<int> layer_of(colours.labels.size(), -1);
  const double cells = double(areas.scale) * areas.scale;
  for (std::size_t i = 0; i < areas.regions.all.size(); ++i) {
    const Region& region = areas.regions.all[i];
    if (areas.ramps[i]) {
      colours.plain.push_back(region.mean);
      Face shaded;
      shaded.area = static_cast<double>(region.area) / cells;
      shaded.layer = static_cast<int>(tracing.layers.size());
      tracing.layers.push_back({"", fill_of(*areas.ramps[i]), {}, {}});
      tracing.faces.push_back(std::move(shaded));
      continue;
    }
    const std::size_t label = std::size_t(region.label);
    colours.plain.push_back(colours.labels[label]);
    Face face;
    face.area = static_cast<double>(region.area) / cells;
    if (colours.alpha[label] > 0) {
      if (layer_of[label] < 0) {
        layer_of[label] = static_cast<int>(tracing.layers.size());
        tracing.layers.push_back({"", paints.drawn[label], {}, {}});
      }
      face.layer = layer_of[label];
    }
    tracing.faces.push_back(std::move(face));
  }
  colours.ramps = areas.ramps;
  name_layers(tracing);
  return colours;
}

void add_lines(Tracing& tracing, const std::vector<ThinLine>& lines) {
  constexpr float one_colour = 24;  // sRGB steps
  const std::size_t first = tracing.layers.size();
  std::vector<Three> colours;
  for (const ThinLine& line : lines) {
    std::size_t at = 0;
    while (at < colours.size() && distance(colours[at], line.colour) > one_colour) ++at;
    if (at == colours.size()) {
      colours.push_back(line.colour);
      tracing.layers.push_back({"", colour_of(line.colour, 1, {}), {}, {}});
    }
    tracing.layers[first + at].lines.push_back(line.stroke);
  }
  std::map<std::string, int> met;
  for (std::size_t i = first; i < tracing.layers.size(); ++i) {
    const std::string words = fill_words(tracing.layers[i].fill) + " lines";
    const int times = ++met[words];
    tracing.layers[i].name = times == 1 ? words : fmt::format("{} {}", words, times);
  }
}

}  // namespace quoin::trace
