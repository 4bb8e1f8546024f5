#include "trace/pixels/palette.h"

#include <map>
#include <numeric>

#include "trace/pixels/source.h"

namespace quoin::trace {
namespace {

constexpr double cell_side = 2.5;  // L*a*b* units of one bin
constexpr double peak_radius = 4;  // within which bins make a peak together

struct Bin {
  double weight = 0;
  double l = 0, a = 0, b = 0;  // mean
  bool taken = false;
};

double squared_distance(const Bin& p, const Bin& q) {
  return (p.l - q.l) * (p.l - q.l) + (p.a - q.a) * (p.a - q.a) + (p.b - q.b) * (p.b - q.b);
}

/// The colours of core pixels in bins, with what lies round each.
class Histogram {
 public:
  Histogram(const Grid<Three>& lab, const Core& core) : cells_(side_l * side_ab * side_ab, -1) {
    for (int y = 0; y < lab.height(); ++y) {
      for (int x = 0; x < lab.width(); ++x) {
        if (core.flat(x, y)) {
          add(lab.at(x, y), 1);
        } else if (core.ridge(x, y) != nullptr) {
          add(lab.at(x, y), 0.15);  // often itself a mixture
        }
      }
    }
    for (Bin& bin : bins_) {
      bin.l /= bin.weight;
      bin.a /= bin.weight;
      bin.b /= bin.weight;
    }
  }
  [[nodiscard]] std::vector<Bin>& bins() { return bins_; }
  [[nodiscard]] double total() const { return total_; }

  /// Calls `see` with each bin that may lie within `radius` of `middle`.
  template <typename See>
  void around(const Bin& middle, double radius, const See& see) {
    const int reach = static_cast<int>(std::ceil(radius / cell_side));
    const int l0 = place(middle.l), a0 = place(middle.a + 130), b0 = place(middle.b + 130);
    for (int l = std::max(0, l0 - reach); l <= std::min(side_l - 1, l0 + reach); ++l) {
      for (int a = std::max(0, a0 - reach); a <= std::min(side_ab - 1, a0 + reach); ++a) {
        for (int b = std::max(0, b0 - reach); b <= std::min(side_ab - 1, b0 + reach); ++b) {
          const int found = cells_[cell(l, a, b)];
          if (found >= 0 && squared_distance(bins_[std::size_t(found)], middle) < radius * radius) {
            see(bins_[std::size_t(found)], found);
          }
        }
      }
    }
  }

 private:
  static constexpr int side_l = 44, side_ab = 106;
  static int place(double value) { return static_cast<int>(std::floor(value / cell_side)); }
  static std::size_t cell(int l, int a, int b) {
    return (std::size_t(l) * side_ab + std::size_t(a)) * side_ab + std::size_t(b);
  }
  void add(Three c, double weight) {
    const int l = std::clamp(place(c.x), 0, side_l - 1);
    const int a = std::clamp(place(c.y + 130), 0, side_ab - 1);
    const int b = std::clamp(place(c.z + 130), 0, side_ab - 1);
    int& number = cells_[cell(l, a, b)];
    if (number < 0) {
      number = static_cast<int>(bins_.size());
      bins_.emplace_back();
    }
    Bin& bin = bins_[std::size_t(number)];
    bin.weight += weight;
    bin.l += weight * c.x;
    bin.a += weight * c.y;
    bin.b += weight * c.z;
    total_ += weight;
  }

  std::vector<int> cells_;
  std::vector<Bin> bins_;
  double total_ = 0;
};

/// The mean of the free bins round a place, by a few steps of mean shift.
Bin settled(Histogram& histogram, Bin at, double radius) {
  for (int step = 0; step < 3; ++step) {
    Bin sum;
    histogram.around(at, radius, [&](const Bin& bin, int) {
      if (bin.taken) return;
      sum.weight += bin.weight;
      sum.l += bin.weight * bin.l;
      sum.a += bin.weight * bin.a;
      sum.b += bin.weight * bin.b;
    });
    if (sum.weight <= 0) return at;
    at = {sum.weight, sum.l / sum.weight, sum.a / sum.weight, sum.b / sum.weight, false};
  }
  return at;
}

std::vector<Bin> find_peaks(Histogram& histogram, double radius, int most) {
  std::vector<Bin>& bins = histogram.bins();
  std::vector<double> density(bins.size(), 0);
  for (std::size_t i = 0; i < bins.size(); ++i) {
    histogram.around(bins[i], peak_radius, [&](const Bin& bin, int) { density[i] += bin.weight; });
  }
  const double least = std::max(6.0, histogram.total() * 0.00025);
  std::vector<Bin> peaks;
  while (static_cast<int>(peaks.size()) < most) {
    std::size_t best = bins.size();
    for (std::size_t i = 0; i < bins.size(); ++i) {
      if (!bins[i].taken && (best == bins.size() || density[i] > density[best])) best = i;
    }
    if (best == bins.size() || density[best] < least) break;
    const Bin peak = settled(histogram, bins[best], radius * 0.8);
    std::vector<int> absorbed{static_cast<int>(best)};
    bins[best].taken = true;
    histogram.around(peak, radius, [&](Bin& bin, int number) {
      if (bin.taken) return;
      bin.taken = true;
      absorbed.push_back(number);
    });
    for (const int number : absorbed) {
      const Bin& gone = bins[std::size_t(number)];
      histogram.around(gone, peak_radius,
                       [&](const Bin&, int other) { density[std::size_t(other)] -= gone.weight; });
    }
    peaks.push_back(peak);
  }
  if (peaks.empty() && !bins.empty()) peaks.push_back(bins.front());
  return peaks;
}

void merge_close(std::vector<Bin>& centres, double radius) {
  for (std::size_t i = 0; i < centres.size(); ++i) {
    for (std::size_t j = i + 1; j < centres.size();) {
      if (squared_distance(centres[i], centres[j]) >= radius * radius) {
        ++j;
        continue;
      }
      const double a = std::max(centres[i].weight, 1e-9), b = std::max(centres[j].weight, 1e-9);
      centres[i].l = (a * centres[i].l + b * centres[j].l) / (a + b);
      centres[i].a = (a * centres[i].a + b * centres[j].a) / (a + b);
      centres[i].b = (a * centres[i].b + b * centres[j].b) / (a + b);
      centres[i].weight = a + b;
      centres.erase(centres.begin() + static_cast<std::ptrdiff_t>(j));
    }
  }
}

/// k-means over the bins: eight rounds, far bins left out, centres that come close merged.
void refine(std::vector<Bin>& centres, const std::vector<Bin>& bins, double radius) {
  for (int round = 0; round < 8; ++round) {
    std::vector<Bin> sums(centres.size());
    for (const Bin& bin : bins) {
      std::size_t best = 0;
      double nearest = 1e18;
      for (std::size_t i = 0; i < centres.size(); ++i) {
        const double d = squared_distance(bin, centres[i]);
        if (d < nearest) {
          nearest = d;
          best = i;
        }
      }
      if (nearest >= 2.25 * radius * radius) continue;
      sums[best].weight += bin.weight;
      sums[best].l += bin.weight * bin.l;
      sums[best].a += bin.weight * bin.a;
      sums[best].b += bin.weight * bin.b;
    }
    for (std::size_t i = 0; i < centres.size(); ++i) {
      const double w = sums[i].weight;
      centres[i].weight = w;
      if (w > 0) centres[i] = {w, sums[i].l / w, sums[i].a / w, sums[i].b / w, false};
    }
    merge_close(centres, radius * 0.8);
  }
}

Palette palette_from(const std::vector<Three>& lab, double radius) {
  Palette palette;
  palette.radius = radius;
  palette.lab = lab;
  for (const Three& colour : lab) palette.srgb.push_back(srgb_of(colour));
  return palette;
}

/// How many core pixels have each colour, and round how many of them the 3x3 pixels all have it.
struct Support {
  int pixels = 0, homogeneous = 0;
};
std::vector<Support> supports(const Palette& palette, const Grid<Three>& lab, const Core& core) {
  Grid<int> label(lab.width(), lab.height(), -1);
  for (int y = 0; y < lab.height(); ++y) {
    for (int x = 0; x < lab.width(); ++x) {
      if (core.flat(x, y) || core.ridge(x, y) != nullptr) {
        label.at(x, y) = palette.nearest(lab.at(x, y));
      }
    }
  }
  std::vector<Support> found(palette.lab.size());
  for (int y = 1; y + 1 < lab.height(); ++y) {
    for (int x = 1; x + 1 < lab.width(); ++x) {
      const int own = label.at(x, y);
      if (own < 0) continue;
      int same = 0;
      for (int v = -1; v <= 1; ++v) {
        for (int u = -1; u <= 1; ++u) same += label.at(x + u, y + v) == own ? 1 : 0;
      }
      ++found[std::size_t(own)].pixels;
      found[std::size_t(own)].homogeneous += same >= 8 ? 1 : 0;
    }
  }
  return found;
}

/// Noise makes colours that are nowhere in one piece: those near a larger one are dropped.
Palette coherent(const Palette& palette, const Grid<Three>& lab, const Core& core) {
  if (palette.size() <= 2) return palette;
  const std::vector<Support> found = supports(palette, lab, core);
  std::vector<Three> kept;
  for (std::size_t i = 0; i < palette.lab.size(); ++i) {
    float near = 1e9F;
    for (std::size_t j = 0; j < palette.lab.size(); ++j) {
      if (j != i && found[j].homogeneous > found[i].homogeneous) {
        near = std::min(near, distance(palette.lab[i], palette.lab[j]));
      }
    }
    const bool scattered =
        found[i].homogeneous < 10 || found[i].homogeneous < 0.12 * found[i].pixels;
    if (near >= 18 || !scattered) kept.push_back(palette.lab[i]);
  }
  return kept.empty() ? palette : palette_from(kept, palette.radius);
}

}  // namespace

int Palette::nearest(Three colour) const {
  int best = 0;
  float least = 1e18F;
  for (std::size_t i = 0; i < lab.size(); ++i) {
    const float d = squared(lab[i] - colour);
    if (d < least) {
      least = d;
      best = static_cast<int>(i);
    }
  }
  return best;
}

Palette find_palette(const Grid<Three>& lab, const Core& core, double noise, int most) {
  const double radius = std::min(6 + 5 * noise, 40.0);
  Histogram histogram(lab, core);
  if (histogram.bins().empty()) return palette_from({lab.cells().front()}, radius);
  std::vector<Bin> centres = find_peaks(histogram, radius, most);
  refine(centres, histogram.bins(), radius);
  std::vector<Three> colours;
  for (const Bin& c : centres) colours.push_back({float(c.l), float(c.a), float(c.b)});
  const Palette palette = palette_from(colours, radius);
  return noise > 0 ? coherent(palette, lab, core) : palette;
}

Palette with_exact_colours(const Palette& palette, const Grid<Rgb>& pixels, const Core& core,
                           int most) {
  constexpr float apart = 2;             // dE76
  constexpr double least_share = 0.002;  // of the flat pixels
  constexpr int least_pixels = 60;
  std::map<int, int> counts;
  int flat = 0;
  for (int y = 0; y < pixels.height(); ++y) {
    for (int x = 0; x < pixels.width(); ++x) {
      if (!core.flat(x, y)) continue;
      const Rgb c = pixels.at(x, y);
      ++counts[c.red << 16 | c.green << 8 | c.blue];
      ++flat;
    }
  }
  std::vector<std::pair<int, int>> exact;  // how often, and which
  for (const auto& [colour, count] : counts) {
    if (count >= std::max(least_pixels, int(least_share * flat))) exact.emplace_back(count, colour);
  }
  std::sort(exact.rbegin(), exact.rend());
  std::vector<std::vector<Three>> of(palette.lab.size());
  for (const auto& [count, colour] : exact) {
    const Three lab =
        lab_of(Three{float(colour >> 16), float(colour >> 8 & 255), float(colour & 255)});
    std::vector<Three>& alike = of[std::size_t(palette.nearest(lab))];
    const bool is_new = std::none_of(alike.begin(), alike.end(), [&](const Three& other) {
      return distance(other, lab) < apart;
    });
    if (is_new) alike.push_back(lab);
  }
  std::vector<Three> colours;
  int left = most - palette.size();  // that may be added
  for (std::size_t i = 0; i < of.size(); ++i) {
    const int more = static_cast<int>(of[i].size()) - 1;
    if (more < 1 || more > left) {
      colours.push_back(palette.lab[i]);
      continue;
    }
    left -= more;
    colours.insert(colours.end(), of[i].begin(), of[i].end());
  }
  return palette_from(colours, palette.radius);
}

Palette palette_of(const std::vector<Three>& srgb) {
  Palette palette;
  palette.srgb = srgb;
  for (const Three& colour : srgb) palette.lab.push_back(lab_of(colour));
  return palette;
}

Palette reduced(const Palette& palette, const Grid<Three>& lab, const Core& core, int count) {
  const std::vector<Support> found = supports(palette, lab, core);
  std::vector<Three> colours = palette.lab;
  std::vector<double> weight;
  for (const Support& one : found) weight.push_back(one.pixels + 1.0);
  while (static_cast<int>(colours.size()) > count) {
    std::size_t a = 0, b = 1;
    double least = 1e18;
    for (std::size_t i = 0; i < colours.size(); ++i) {
      for (std::size_t j = i + 1; j < colours.size(); ++j) {
        // What it costs to give all of both one colour (Ward's criterion).
        const double cost = weight[i] * weight[j] / (weight[i] + weight[j]) *
                            double(squared(colours[i] - colours[j]));
        if (cost < least) {
          least = cost;
          a = i;
          b = j;
        }
      }
    }
    const double sum = weight[a] + weight[b];
    colours[a] = colours[a] * float(weight[a] / sum) + colours[b] * float(weight[b] / sum);
    weight[a] = sum;
    colours.erase(colours.begin() + static_cast<std::ptrdiff_t>(b));
    weight.erase(weight.begin() + static_cast<std::ptrdiff_t>(b));
  }
  return palette_from(colours, palette.radius);
}

}  // namespace quoin::trace
