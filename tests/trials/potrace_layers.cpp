#include "potrace_layers.h"

#include <fmt/format.h>

extern "C" {
#include <potracelib.h>
}

#include <algorithm>
#include <memory>
#include <numeric>
#include <stdexcept>

namespace quoin::trials {
namespace {

constexpr double speck = 6;  // pixels, as in the tracer

using Mask = std::vector<char>;

Mask cells_of(const trace::ColourAreas& areas, int colour) {
  Mask mask(areas.colour.size());
  for (std::size_t i = 0; i < mask.size(); ++i) mask[i] = areas.colour[i] == colour ? 1 : 0;
  return mask;
}

/// Within `reach` cells of the mask, along both axes.
Mask grown(const Mask& mask, int width, int height, int reach) {
  const auto along = [&](const Mask& from, int dx, int dy) {
    Mask to(from.size(), 0);
    for (int y = 0; y < height; ++y) {
      for (int x = 0; x < width; ++x) {
        if (from[std::size_t(y) * std::size_t(width) + std::size_t(x)] == 0) continue;
        for (int k = -reach; k <= reach; ++k) {
          const int u = x + k * dx, v = y + k * dy;
          if (u < 0 || v < 0 || u >= width || v >= height) continue;
          to[std::size_t(v) * std::size_t(width) + std::size_t(u)] = 1;
        }
      }
    }
    return to;
  };
  return along(along(mask, 1, 0), 0, 1);
}

/// Calls `see` with each closed curve.
template <typename See>
void traced(const Mask& mask, int width, int height, int scale, const See& see) {
  constexpr int bits = static_cast<int>(sizeof(potrace_word) * 8);
  potrace_bitmap_t bitmap{};
  bitmap.w = width;
  bitmap.h = height;
  bitmap.dy = (width + bits - 1) / bits;
  std::vector<potrace_word> words(std::size_t(bitmap.dy) * std::size_t(height), 0);
  bitmap.map = words.data();
  for (int y = 0; y < height; ++y) {
    for (int x = 0; x < width; ++x) {
      if (mask[std::size_t(y) * std::size_t(width) + std::size_t(x)] == 0) continue;
      words[std::size_t(height - 1 - y) * std::size_t(bitmap.dy) + std::size_t(x / bits)] |=
          potrace_word(1) << (bits - 1 - x % bits);
    }
  }
  const std::unique_ptr<potrace_param_t, void (*)(potrace_param_t*)> rules(potrace_param_default(),
                                                                           potrace_param_free);
  rules->turdsize = static_cast<int>(speck * scale * scale / 2);
  rules->opttolerance = 0.2 * scale / 2;
  const std::unique_ptr<potrace_state_t, void (*)(potrace_state_t*)> state(
      potrace_trace(rules.get(), &bitmap), potrace_state_free);
  if (!state) throw std::runtime_error("libpotrace gave up");
  for (const potrace_path_t* path = state->plist; path != nullptr; path = path->next) {
    see(path->curve);
  }
}

/// Appends a closed curve in pixels of the picture; how many segments it has.
int append(Path& path, const potrace_curve_t& curve, int height, int scale) {
  const auto at = [&](const potrace_dpoint_t& p) {
    return Point{Mm(p.x / scale), Mm((height - p.y) / scale)};
  };
  int segments = 0;
  path.move_to(at(curve.c[curve.n - 1][2]));
  for (int i = 0; i < curve.n; ++i) {
    if (curve.tag[i] == POTRACE_CORNER) {
      path.line_to(at(curve.c[i][1])).line_to(at(curve.c[i][2]));
      segments += 2;
    } else {
      path.curve_to(at(curve.c[i][0]), at(curve.c[i][1]), at(curve.c[i][2]));
      ++segments;
    }
  }
  path.close();
  return segments;
}

std::string data_of(const Path& path) {
  std::string data;
  const auto put = [&](Point p) { data += fmt::format("{:.2f} {:.2f} ", p.x.value, p.y.value); };
  for (const Path::Step& step : path.steps()) {
    switch (step.verb) {
      case Path::Verb::move:
        data += 'M';
        put(step.p[0]);
        break;
      case Path::Verb::line:
        data += 'L';
        put(step.p[0]);
        break;
      case Path::Verb::curve:
        data += 'C';
        for (const Point& p : step.p) put(p);
        break;
      case Path::Verb::close:
        data += 'z';
    }
  }
  return data;
}

}  // namespace

PotraceDrawing potrace_layers(const trace::ColourAreas& areas) {
  std::vector<std::int64_t> size(areas.colours.size(), 0);
  for (const int colour : areas.colour) ++size[std::size_t(colour)];
  std::vector<int> order(size.size());
  std::iota(order.begin(), order.end(), 0);
  std::stable_sort(order.begin(), order.end(),
                   [&](int a, int b) { return size[std::size_t(a)] > size[std::size_t(b)]; });
  std::vector<int> rank(size.size());
  for (std::size_t i = 0; i < order.size(); ++i) rank[std::size_t(order[i])] = int(i);

  PotraceDrawing drawing;
  const int width = areas.width / areas.scale, height = areas.height / areas.scale;
  drawing.svg = fmt::format(
      "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{0}\" "
      "height=\"{1}\" viewBox=\"0 0 {0} {1}\">",
      width, height);
  for (std::size_t k = 0; k < order.size(); ++k) {
    const int colour = order[k];
    if (size[std::size_t(colour)] == 0) continue;
    const std::string hex = to_string(areas.colours[std::size_t(colour)]);
    if (k == 0) {
      drawing.svg += fmt::format("<path fill=\"{}\" d=\"M0 0H{}V{}H0z\"/>", hex, width, height);
      drawing.segments += 4;
      continue;
    }
    Mask mask = cells_of(areas, colour);
    const Mask wider = grown(mask, areas.width, areas.height, areas.scale);
    for (std::size_t i = 0; i < mask.size(); ++i) {
      if (wider[i] != 0 && rank[std::size_t(areas.colour[i])] > static_cast<int>(k)) mask[i] = 1;
    }
    Path path;
    traced(mask, areas.width, areas.height, areas.scale, [&](const potrace_curve_t& curve) {
      drawing.segments += append(path, curve, areas.height, areas.scale);
    });
    if (!path.empty()) {
      drawing.svg += fmt::format("<path fill=\"{}\" d=\"{}\"/>", hex, data_of(path));
    }
  }
  drawing.svg += "</svg>";
  return drawing;
}

Path potrace_outline(const trace::ColourAreas& areas, int colour) {
  Path path;
  traced(cells_of(areas, colour), areas.width, areas.height, areas.scale,
         [&](const potrace_curve_t& curve) { append(path, curve, areas.height, areas.scale); });
  return path;
}

}  // namespace quoin::trials
