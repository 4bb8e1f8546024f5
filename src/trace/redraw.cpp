#include "trace/redraw.h"

#include <fmt/format.h>

#include "trace/drawing/arrange.h"
#include "trace/drawing/layers.h"
#include "trace/outline/borders.h"
#include "trace/outline/dots.h"
#include "trace/outline/thin_lines.h"
#include "trace/pixels/areas.h"

namespace quoin::trace {
namespace {

std::optional<Diagnostic> refused(const Raster& picture, const std::string& name,
                                  const Origin& origin) {
  if (std::min(picture.width, picture.height) < least_side) {
    return Diagnostic(Id::trace_too_small, origin,
                      fmt::format("{} has {} x {} px; there is nothing to follow in fewer than {}",
                                  name, picture.width, picture.height, least_side))
        .hint("find a copy of at least 200 px along its shorter side");
  }
  const bool shows_something = std::any_of(picture.pixels.begin(), picture.pixels.end(),
                                           [](std::uint32_t p) { return p >> 24 >= 8; });
  if (!shows_something) {
    return Diagnostic(Id::trace_nothing_drawn, origin,
                      fmt::format("{} is transparent all over", name))
        .hint("look whether this is the file that was meant");
  }
  return std::nullopt;
}

/// Brings what was traced at half size, or smaller, to the size of the picture.
void scale_up(Tracing& tracing, double factor) {
  const auto grow = [&](std::vector<Curve>& curves) {
    for (Curve& curve : curves) {
      for (Spot& p : curve.p) p = p * factor;
    }
  };
  for (Border& border : tracing.borders) {
    grow(border.curves);
    if (border.circle) {
      border.circle = Circle{border.circle->centre * factor, border.circle->radius * factor};
    }
  }
  for (Face& face : tracing.faces) face.area *= factor * factor;
  for (Layer& layer : tracing.layers) {
    for (StrokeLine& line : layer.lines) {
      grow(line.curves);
      line.width *= factor;
    }
    if (auto* linear = std::get_if<LinearFill>(&layer.fill)) {
      linear->from = linear->from * factor;
      linear->to = linear->to * factor;
    } else if (auto* radial = std::get_if<RadialFill>(&layer.fill)) {
      radial->centre = radial->centre * factor;
      radial->radius *= factor;
    }
  }
  for (SmallText& text : tracing.small_text) {
    text = {text.at * factor, text.width * factor, text.height * factor};
  }
}

Diagnostics notes_on(const Tracing& tracing, const std::string& name, const Origin& origin) {
  Diagnostics found;
  if (tracing.halved) {
    found.push_back(Diagnostic(
        Id::trace_made_smaller, origin,
        fmt::format("{} has {:.0f} megapixels and was halved before "
                    "redrawing; {:.0f} are traced at most",
                    name, tracing.width * double(tracing.height) / 1e6, most_traced_pixels / 1e6)));
  }
  if (tracing.faces.size() == 1) {
    found.push_back(Diagnostic(
        Id::trace_one_colour, origin,
        fmt::format("{} is {} all over", name,
                    tracing.layers.empty() ? "transparent" : tracing.layers.front().name)));
  }
  if (!tracing.small_text.empty()) {
    Diagnostic text(Id::trace_small_text, origin,
                    fmt::format("{} has lettering too small to be redrawn, in {} {}", name,
                                tracing.small_text.size(),
                                tracing.small_text.size() == 1 ? "place" : "places"));
    constexpr std::size_t most_named = 8;
    for (std::size_t i = 0; i < std::min(most_named, tracing.small_text.size()); ++i) {
      const SmallText& one = tracing.small_text[i];
      text.detail(
          fmt::format("{:.0f} px wide and {:.0f} px high, {:.0f} px from the left and "
                      "{:.0f} px from the top",
                      one.width, one.height, one.at.x, one.at.y));
    }
    if (tracing.small_text.size() > most_named) {
      text.detail(fmt::format("and {} more places", tracing.small_text.size() - most_named));
    }
    found.push_back(text.hint("retype these words as text"));
  }
  return found;
}

/// Cells along one side of a pixel.
int cells_along(std::int64_t pixels) {
  return pixels > most_doubled_pixels ? 1 : pixels > most_fine_pixels ? 2 : 4;
}

std::string listed_colours(const std::vector<Colour>& colours) {
  std::string text;
  for (const Colour& colour : colours) text += (text.empty() ? "" : ", ") + to_string(colour);
  return text;
}

std::optional<Diagnostic> unknown_colours(const Exchange& exchange, const std::string& name,
                                          const Origin& origin) {
  if (exchange.unknown.empty()) return std::nullopt;
  return Diagnostic(Id::trace_no_such_colour, origin,
                    fmt::format("the drawing of {} has no {}, and keeps what is there", name,
                                listed_colours(exchange.unknown)))
      .detail("its plain colours are " + listed_colours(exchange.known))
      .hint("name one of these before the =");
}

}  // namespace

Result<Checked<Tracing>> redraw(const Raster& picture, const TraceWishes& wishes,
                                const std::string& name, const Origin& origin) {
  if (auto why = refused(picture, name, origin)) return std::move(*why);
  const Source source = source_of(picture, most_traced_pixels);
  const std::int64_t count = std::int64_t(source.width()) * source.height();
  Areas areas = find_areas(source, wishes, cells_along(count));
  const double closeness = wishes.closeness == Closeness::closest ? 0.1 : 0.2;
  const FitRules rules{closeness + 0.1 * areas.noise.sigma, 2};
  std::vector<ThinLine> lines = take_thin_lines(areas, rules);
  const bool wished = wishes.colours > 0 || !wishes.palette.empty();
  areas.ramps.resize(areas.regions.all.size());
  if (!wished) join_shades(areas, source);
  Paints paints = paints_of(areas, source);
  if (!wishes.palette.empty()) keep_to(wishes.palette, paints, lines);
  Exchange exchange = exchange_colours(wishes.instead, areas, paints, lines);
  const Coloured coloured = areas.coloured();

  Tracing tracing;
  tracing.width = source.width();
  tracing.height = source.height();
  tracing.noise = areas.noise.sigma;
  tracing.smoothed = areas.noise.sigma > 0;
  tracing.halved = source.halved;
  tracing.small_text = areas.small_text;
  SideColours colours = make_layers(tracing, areas, paints);
  colours.mixed = std::move(exchange.mixed);

  CrackMap map = walk_cracks(areas.regions, coloured, colours);
  smooth(map, areas.scale);
  place_junctions(map, tracing.width, tracing.height);
  tracing.borders = fit_borders(map, rules);
  round_dots(tracing.borders, map, areas.regions, coloured, colours);
  arrange(tracing, map);
  add_lines(tracing, lines);
  if (source.halved) {
    scale_up(tracing, double(picture.width) / source.width());
    tracing.width = picture.width;
    tracing.height = picture.height;
  }
  Diagnostics found = notes_on(tracing, name, origin);
  if (auto unknown = unknown_colours(exchange, name, origin)) found.push_back(*unknown);
  return Checked<Tracing>{std::move(tracing), std::move(found)};
}

Result<ColourAreas> colour_areas(const Raster& picture, const TraceWishes& wishes, int scale,
                                 const std::string& name, const Origin& origin) {
  if (auto why = refused(picture, name, origin)) return std::move(*why);
  const Source source = source_of(picture, most_traced_pixels);
  const Areas areas = find_areas(source, wishes, scale);
  Tracing tracing;
  const SideColours colours = make_layers(tracing, areas, paints_of(areas, source));
  ColourAreas out;
  out.scale = scale;
  out.width = areas.regions.of.width();
  out.height = areas.regions.of.height();
  out.colour.reserve(areas.regions.of.cells().size());
  for (const int region : areas.regions.of.cells()) {
    out.colour.push_back(areas.regions.all[std::size_t(region)].label);
  }
  for (const Three& c : colours.labels) {
    out.colours.push_back({c.x / 255.0, c.y / 255.0, c.z / 255.0, 1});
  }
  for (std::size_t i = 0; i < out.colours.size(); ++i) {
    out.colours[i].alpha = colours.alpha.empty() ? 1 : colours.alpha[i];
  }
  return out;
}

int node_count(const Tracing& tracing) {
  std::size_t count = 0;
  for (const Border& border : tracing.borders) count += border.curves.size();
  for (const Layer& layer : tracing.layers) {
    for (const StrokeLine& line : layer.lines) count += line.curves.size();
  }
  return static_cast<int>(count);
}

}  // namespace quoin::trace
