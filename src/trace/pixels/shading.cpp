#include "trace/pixels/shading.h"

#include <map>

#include "trace/pixels/unions.h"

namespace quoin::trace {
namespace {

constexpr std::size_t most_samples = 3000;
constexpr double least_area = 150;  // pixels of a picture that a ramp is worth while for

struct Votes {
  int smooth = 0, all = 0;
};

/// How much more the colour changes across a border than the slopes beside it say. The border lies
/// after pixel (x, y) in the direction (dx, dy).
float step_across(const Grid<Three>& lab, int x, int y, int dx, int dy) {
  const auto at = [&](int k) { return lab.near(x + k * dx, y + k * dy); };
  const Three before = at(-1) - at(-3), after = at(4) - at(2);
  return std::sqrt(squared(at(2) - at(-1) - (before + after) * 0.75F));
}

class BandJoiner {
 public:
  BandJoiner(Regions& regions, const Coloured& picture, const Source& source, double noise)
      : regions_(regions), picture_(picture), source_(source), noise_(noise) {}

  std::vector<std::optional<Ramp>> run() {
    find_smooth_borders();
    sample();
    ramps_.resize(regions_.all.size());
    target_.resize(regions_.all.size());
    for (std::size_t i = 0; i < target_.size(); ++i) target_[i] = static_cast<int>(i);
    std::vector<int> all(regions_.all.size());
    for (std::size_t i = 0; i < all.size(); ++i) all[i] = static_cast<int>(i);
    for (std::vector<int>& group : groups_of(all)) settle(std::move(group), 0);
    return merge();
  }

 private:
  void find_smooth_borders() {
    const Grid<int>& of = regions_.of;
    const float limit = static_cast<float>(2 + 4 * noise_);
    std::map<std::pair<int, int>, Votes> votes;
    const int scale = picture_.scale;
    const auto see = [&](int x, int y, int dx, int dy) {
      const int a = of.at(x, y), b = of.at(x + dx, y + dy);
      if (a == b) return;
      Votes& pair = votes[{std::min(a, b), std::max(a, b)}];
      ++pair.all;
      if (step_across(picture_.lab, x / scale, y / scale, dx, dy) < limit) ++pair.smooth;
    };
    for (int y = 0; y < of.height(); ++y) {
      for (int x = 0; x < of.width(); ++x) {
        if (x + 1 < of.width()) see(x, y, 1, 0);
        if (y + 1 < of.height()) see(x, y, 0, 1);
      }
    }
    for (const auto& [pair, vote] : votes) {
      if (vote.all >= 4 * scale && vote.smooth >= 0.7 * vote.all) smooth_.push_back(pair);
    }
  }

  /// Flat pixels well inside their regions and those joined to them by no step, a few thousand.
  void sample() {
    samples_.resize(regions_.all.size());
    banded_.assign(regions_.all.size(), 0);
    see_through_.assign(regions_.all.size(), 0);
    const int scale = picture_.scale;
    const std::size_t count = picture_.pixels.cells().size();
    const int stride = std::max(1, int(std::sqrt(double(count) / 40'000)));
    for (int y = 2; y + 2 < picture_.pixels.height(); y += stride) {
      for (int x = 2; x + 2 < picture_.pixels.width(); x += stride) {
        const std::size_t r = std::size_t(regions_.of.at(x * scale, y * scale));
        if (source_.has_alpha() && source_.alpha.at(x, y) < 250) see_through_[r] = 1;
        bool flat = true;
        for (int v = -1; v <= 1; ++v) {
          for (int u = -1; u <= 1; ++u) flat = flat && picture_.core.flat(x + u, y + v);
        }
        if (!flat) continue;
        const auto at = [&](int u, int v) { return three(picture_.pixels.at(x + u, y + v)); };
        samples_[r].push_back({{x + 0.5, y + 0.5},
                               at(0, 0),
                               (at(2, 0) - at(-2, 0)) * 0.25F,
                               (at(0, 2) - at(0, -2)) * 0.25F});
      }
    }
    for (std::size_t r = 0; r < samples_.size(); ++r) {
      Three mean;
      const float share = 1 / std::max(1.0F, float(samples_[r].size()));
      for (const ColourSample& s : samples_[r]) mean = mean + s.colour * share;
      for (const ColourSample& s : samples_[r]) banded_[r] += distance(s.colour, mean);
    }
  }

  /// Parts of `members` that smooth borders hold together.
  [[nodiscard]] std::vector<std::vector<int>> groups_of(const std::vector<int>& members) const {
    std::vector<char> is_member(regions_.all.size(), 0);
    for (const int m : members) is_member[std::size_t(m)] = 1;
    Unions unions(regions_.count());
    for (const auto& [a, b] : smooth_) {
      if (is_member[std::size_t(a)] != 0 && is_member[std::size_t(b)] != 0) unions.join(a, b);
    }
    std::map<int, std::vector<int>> found;
    for (const int m : members) {
      if (see_through_[std::size_t(m)] == 0) found[unions.find(m)].push_back(m);
    }
    std::vector<std::vector<int>> groups;
    for (auto& [root, group] : found) groups.push_back(std::move(group));
    return groups;
  }

  struct Trial {
    std::vector<ColourSample> samples;
    double banded = 0;  // mean distance from plain bands
  };
  [[nodiscard]] Trial gathered(const std::vector<int>& group) const {
    Trial trial;
    std::size_t count = 0;
    for (const int r : group) count += samples_[std::size_t(r)].size();
    const std::size_t stride = count / most_samples + 1;
    std::size_t at = 0;
    for (const int r : group) {
      trial.banded += banded_[std::size_t(r)];
      for (const ColourSample& s : samples_[std::size_t(r)]) {
        if (at++ % stride == 0) trial.samples.push_back(s);
      }
    }
    trial.banded /= std::max(1.0, double(count));
    return trial;
  }

  [[nodiscard]] double area_of(const std::vector<int>& group) const {
    double area = 0;
    for (const int r : group) area += double(regions_.all[std::size_t(r)].area);
    return area / (double(picture_.scale) * picture_.scale);
  }

  /// The mean distance of a region's colours from a ramp; nothing is known of one without samples.
  [[nodiscard]] double misfit_of(int region, const Ramp& ramp) const {
    const auto& all = samples_[std::size_t(region)];
    if (all.empty()) return 0;
    double sum = 0;
    const std::size_t stride = all.size() / 200 + 1;
    std::size_t count = 0;
    for (std::size_t i = 0; i < all.size(); i += stride, ++count) {
      sum += distance(ramp.at(all[i].at), all[i].colour);
    }
    return sum / double(count);
  }

  [[nodiscard]] static double span_of(const Ramp& ramp) {
    double span = 0;
    for (const Three& a : ramp.colours) {
      for (const Three& b : ramp.colours) span = std::max(span, double(distance(a, b)));
    }
    return span;
  }

  void settle(std::vector<int> group, int depth) {
    if (area_of(group) < least_area * (1 + 6 * noise_)) return;
    const Trial trial = gathered(group);
    if (trial.banded < 0.8 + noise_ && group.size() == 1) return;
    const auto fitted = fit_ramp(trial.samples, noise_);
    // What changes by no more than noise may is no gradient.
    if (!fitted || span_of(fitted->ramp) < 5 + 20 * noise_) return;
    const double good = 2.5 + 2 * noise_;
    if (fitted->misfit < good && fitted->misfit < 0.7 * trial.banded) {
      take(group, fitted->ramp);
      return;
    }
    if (group.size() < 2 || depth > 6) {
      if (fitted->misfit < 0.6 * trial.banded && fitted->misfit < 6 + 2 * noise_) {
        take(group, fitted->ramp);
      }
      return;
    }
    std::vector<int> fitting, others;
    for (const int r : group) {
      const double own = misfit_of(r, fitted->ramp);
      (own <= std::max(good, fitted->misfit) ? fitting : others).push_back(r);
    }
    if (others.empty() || fitting.empty()) return;
    for (std::vector<int>* part : {&fitting, &others}) {
      for (std::vector<int>& each : groups_of(*part)) settle(std::move(each), depth + 1);
    }
  }

  void take(const std::vector<int>& group, const Ramp& ramp) {
    for (const int r : group) target_[std::size_t(r)] = group.front();
    ramps_[std::size_t(group.front())] = ramp;
  }

  std::vector<std::optional<Ramp>> merge() {
    std::vector<int> number(target_.size(), -1);
    std::vector<Region> kept;
    std::vector<std::optional<Ramp>> ramps;
    for (std::size_t i = 0; i < target_.size(); ++i) {
      int& to = number[std::size_t(target_[i])];
      const Region& region = regions_.all[i];
      if (to < 0) {
        to = static_cast<int>(kept.size());
        kept.push_back(region);
        ramps.push_back(ramps_[std::size_t(target_[i])]);
        if (ramps.back()) kept.back().label = -1;
        continue;
      }
      Region& into = kept[std::size_t(to)];
      const float share = float(region.area) / float(region.area + into.area);
      into.mean = into.mean * (1 - share) + region.mean * share;
      into.area += region.area;
    }
    for (int& cell : regions_.of.cells()) cell = number[std::size_t(target_[std::size_t(cell)])];
    regions_.all = std::move(kept);
    return ramps;
  }

  Regions& regions_;
  const Coloured& picture_;
  const Source& source_;
  double noise_;
  std::vector<std::pair<int, int>> smooth_;
  std::vector<std::vector<ColourSample>> samples_;  // of each region
  std::vector<double> banded_;                      // sums of distances from its mean colour
  std::vector<char> see_through_;
  std::vector<int> target_;  // the region that each becomes part of
  std::vector<std::optional<Ramp>> ramps_;
};

}  // namespace

std::vector<std::optional<Ramp>> join_bands(Regions& regions, const Coloured& picture,
                                            const Source& source, double noise) {
  return BandJoiner(regions, picture, source, noise).run();
}

}  // namespace quoin::trace
