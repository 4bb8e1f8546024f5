#include "trace/outline/thin_lines.h"

#include <map>
#include <numeric>

#include "trace/outline/borders.h"
#include "trace/outline/skeleton.h"
#include "trace/outline/straight.h"

namespace quoin::trace {
namespace {

constexpr double widest_line = 2.5;                       // pixels
constexpr double shortest_line = 10, least_slender = 6;   // pixels; of its width
constexpr double all_of_it = 0.9;                         // of a region that lies under lines
constexpr double long_line = 30;                          // pixels
constexpr int least_flat = 25;                            // pixels that show a colour unmixed
constexpr double section_reach = 4, section_step = 0.25;  // pixels across the line

/// What is seen across a line at one place.
struct Section {
  Spot middle;
  Three ground;   // sRGB
  Three deficit;  // integral of the colour less the ground's, over pixels
  float deepest = 0;
};

/// A place between pixel middles.
Three colour_at(const Grid<Rgb>& pixels, Spot at) {
  const double x = at.x - 0.5, y = at.y - 0.5;
  const int u = static_cast<int>(std::floor(x)), v = static_cast<int>(std::floor(y));
  const float fx = static_cast<float>(x - std::floor(x));
  const float fy = static_cast<float>(y - std::floor(y));
  const auto p = [&](int a, int b) { return three(pixels.near(u + a, v + b)); };
  return (p(0, 0) * (1 - fx) + p(1, 0) * fx) * (1 - fy) + (p(0, 1) * (1 - fx) + p(1, 1) * fx) * fy;
}

/// The integral across a line, from where the ground ends on one side to where it begins again.
std::optional<Section> section_at(const Grid<Rgb>& pixels, Spot at, Spot normal) {
  constexpr int count = static_cast<int>(section_reach / section_step);
  std::vector<Three> colours;
  for (int k = -count; k <= count; ++k) {
    colours.push_back(colour_at(pixels, at + normal * (k * section_step)));
  }
  const Three left = colours[std::size_t(count - 12)], right = colours[std::size_t(count + 12)];
  if (distance(left, right) > 40) return std::nullopt;
  Section section;
  section.ground = (left + right) * 0.5F;
  double weight = 0, offset = 0;
  for (int k = -12; k <= 12; ++k) {
    const Three off = colours[std::size_t(count + k)] - section.ground;
    const float depth = std::sqrt(squared(off));
    section.deepest = std::max(section.deepest, depth);
    section.deficit = section.deficit + off * float(section_step);
    weight += depth;
    offset += double(depth) * k * section_step;
  }
  if (weight <= 0 || section.deepest < 20) return std::nullopt;
  section.middle = at + normal * (offset / weight);
  return section;
}

double median_of(std::vector<double> values) {
  const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
  std::nth_element(values.begin(), middle, values.end());
  return *middle;
}

class LineFinder {
 public:
  LineFinder(Areas& areas, const FitRules& rules)
      : areas_(areas), rules_(rules), flat_(areas.palette.srgb.size(), 0) {
    for (int y = 0; y < areas.lab.height(); ++y) {
      for (int x = 0; x < areas.lab.width(); ++x) {
        if (!areas.core.flat(x, y)) continue;
        const int region = areas.regions.of.at(x * areas.scale, y * areas.scale);
        ++flat_[std::size_t(areas.regions.all[std::size_t(region)].label)];
      }
    }
  }

  std::vector<ThinLine> run() {
    Grid<char> marked = ridges();
    thin(marked);
    for (const PixelPath& path : paths_of(marked)) follow(path);
    for (int pass = 0; pass < 2; ++pass) drop_parts_of_shapes();
    if (lines_.empty()) return {};
    close_ground();
    return std::move(lines_);
  }

 private:
  [[nodiscard]] Grid<char> ridges() const {
    Grid<char> marked(areas_.lab.width(), areas_.lab.height(), 0);
    for (int y = 0; y < marked.height(); ++y) {
      for (int x = 0; x < marked.width(); ++x) {
        if (areas_.core.ridge(x, y) != nullptr && !in_small_text(x, y)) marked.at(x, y) = 1;
      }
    }
    return marked;
  }

  [[nodiscard]] bool in_small_text(int x, int y) const {
    for (const SmallText& text : areas_.small_text) {
      if (x >= text.at.x - 2 && y >= text.at.y - 2 && x <= text.at.x + text.width + 2 &&
          y <= text.at.y + text.height + 2) {
        return true;
      }
    }
    return false;
  }

  [[nodiscard]] static Spot middle_of(std::pair<int, int> pixel) {
    return {pixel.first + 0.5, pixel.second + 0.5};
  }

  /// Along the path at one of its pixels, over four pixels to both sides.
  [[nodiscard]] static Spot way_at(const PixelPath& path, std::size_t i) {
    const int count = static_cast<int>(path.pixels.size());
    const auto at = [&](int k) {
      const int j = path.closed ? ((k % count) + count) % count : std::clamp(k, 0, count - 1);
      return middle_of(path.pixels[std::size_t(j)]);
    };
    return unit(at(int(i) + 4) - at(int(i) - 4));
  }

  void follow(const PixelPath& path) {
    // Short lines that branch are letters, veins, twigs: better one shape than some strokes.
    if (double(path.pixels.size()) < (path.branches ? long_line : shortest_line)) return;
    std::vector<Section> sections;
    for (std::size_t i = 0; i < path.pixels.size(); ++i) {
      const Spot way = way_at(path, i);
      const auto section = section_at(areas_.pixels, middle_of(path.pixels[i]), {-way.y, way.x});
      if (!section) continue;
      if (length(section->middle - middle_of(path.pixels[i])) > 1.2) continue;
      sections.push_back(*section);
    }
    if (double(sections.size()) < 0.8 * double(path.pixels.size()) || sections.size() < 4) return;
    const auto [colour, width] = colour_and_width(sections);
    if (width <= 0.2 || width > widest_line) return;
    if (double(path.pixels.size()) < least_slender * width) return;
    draw(path, sections, colour, width);
  }

  /// Sets out from what all sections together lack of the ground's colour.
  [[nodiscard]] std::pair<Three, double> colour_and_width(const std::vector<Section>& all) const {
    Three ground, deficit;
    float strongest = 0;
    const float share = 1 / float(all.size());
    for (const Section& s : all) {
      ground = ground + s.ground * share;
      deficit = deficit + s.deficit * share;
      strongest = std::max(strongest, s.deepest);
    }
    const float whole = std::sqrt(squared(deficit));
    if (whole < 5) return {ground, 0};
    const Three way = deficit * (1 / whole);
    // Where the line is as wide as a pixel or wider, some pixel shows its colour. Thinner, all are
    // mixtures, and it is likeliest a colour that the picture has elsewhere along the same mixture.
    float reach = strongest;
    bool known = whole > 1.25F * strongest;
    for (std::size_t i = 0; i < areas_.palette.srgb.size() && whole <= 1.25F * strongest; ++i) {
      const Three off = areas_.palette.srgb[i] - ground;
      const float along = dot(off, way);
      const float aside = std::sqrt(std::max(0.0F, squared(off) - along * along));
      if (flat_[i] < least_flat || along < 0.9F * strongest || aside > 0.15F * along) continue;
      if (known && along >= reach) continue;
      reach = along;
      known = true;
    }
    // On transparency the strongest that is seen may still be half the ground's.
    if (areas_.has_alpha && !known) return {ground, 0};
    std::vector<double> widths;
    for (const Section& s : all) widths.push_back(double(dot(s.deficit, way)) / reach);
    const double width = median_of(widths);
    int even = 0;
    for (const double w : widths) even += std::abs(w - width) < 0.25 * width + 0.08 ? 1 : 0;
    if (even < 0.75 * double(widths.size())) return {ground, 0};
    return {ground + way * reach, width};
  }

  void draw(const PixelPath& path, const std::vector<Section>& sections, Three colour,
            double width) {
    Chain chain;
    chain.left = chain.right = 0;
    if (!path.closed) {
      chain.from = 0;
      chain.to = 1;
    }
    for (const Section& s : sections) chain.points.push_back(s.middle);
    smooth_points(chain.points, path.closed, width < 1.2 ? 6 : 2);
    if (!path.closed) extend(chain.points, colour, width);
    ThinLine line;
    line.colour = {std::clamp(colour.x, 0.0F, 255.0F), std::clamp(colour.y, 0.0F, 255.0F),
                   std::clamp(colour.z, 0.0F, 255.0F)};
    line.stroke.width = width;
    line.stroke.closed = path.closed;
    line.stroke.round_ends = true;
    CrackMap map;
    map.chains.push_back(chain);
    map.junctions = {chain.points.front(), chain.points.back()};
    line.stroke.curves = fit_borders(map, rules_).front().curves;
    points_.push_back(std::move(chain.points));
    lines_.push_back(std::move(line));
  }

  static void smooth_points(std::vector<Spot>& points, bool closed, int passes) {
    for (int pass = 0; pass < passes; ++pass) {
      const std::vector<Spot> before = points;
      const std::size_t count = points.size();
      for (std::size_t i = 0; i < count; ++i) {
        if (!closed && (i == 0 || i + 1 == count)) continue;
        points[i] =
            (before[(i + count - 1) % count] + before[i] * 2 + before[(i + 1) % count]) * 0.25;
      }
    }
  }

  /// Lengthens (or shortens) both ends to where the line has half of its weight, less what its
  /// round end adds.
  void extend(std::vector<Spot>& points, Three colour, double width) const {
    const double cap = 0.4 * width;
    for (const bool last : {false, true}) {
      const std::size_t count = points.size();
      const std::size_t from = last ? count - 1 : 0;
      const std::size_t back = std::min<std::size_t>(4, count - 1);
      const Spot way = unit(points[from] - points[last ? count - 1 - back : back]);
      const Spot normal{-way.y, way.x};
      double far = 0;
      for (double step = -1; step <= 2.5; step += 0.25) {
        const Spot at = points[from] + way * step;
        const auto section = section_at(areas_.pixels, at, normal);
        if (!section) break;
        const Three full = colour - section->ground;
        const double share = double(dot(section->deficit, full)) / double(squared(full)) / width;
        if (share < 0.5) break;
        far = step;
      }
      points[from] = points[from] + way * (far - cap);
    }
  }

  /// Calls `see` with each cell within `reach` of the points from `first` to before `last`.
  template <typename See>
  void cells_near(const std::vector<Spot>& points, std::size_t first, std::size_t last,
                  double reach, const See& see) const {
    const int scale = areas_.scale;
    for (std::size_t i = first; i < last; ++i) {
      const Spot p = points[i];
      for (int y = int((p.y - reach) * scale); y <= int((p.y + reach) * scale); ++y) {
        for (int x = int((p.x - reach) * scale); x <= int((p.x + reach) * scale); ++x) {
          if (!areas_.regions.of.has(x, y)) continue;
          const Spot cell{(x + 0.5) / scale, (y + 0.5) / scale};
          if (length(cell - p) <= reach) see(x, y);
        }
      }
    }
  }

  /// Gives the cells under each line the label of the ground beside it: whole regions that are
  /// nothing but lines, and of others (a line that ends in a shape) what lies under its inner part.
  void close_ground() {
    const Grid<int>& of = areas_.regions.of;
    Grid<int> labels(of.width(), of.height());
    for (std::size_t i = 0; i < labels.cells().size(); ++i) {
      labels.cells()[i] = areas_.regions.all[std::size_t(of.cells()[i])].label;
    }
    const std::vector<double> covered = covered_shares();
    std::vector<int> grounds;
    for (std::size_t k = 0; k < points_.size(); ++k) {
      grounds.push_back(ground_of(labels, points_[k], reach_of(k) + 1));
    }
    Grid<int> closed = labels;
    for (std::size_t k = 0; k < points_.size(); ++k) {
      const std::size_t count = points_[k].size();
      const std::size_t inner = lines_[k].stroke.closed ? 0 : std::min<std::size_t>(3, count / 3);
      const auto close = [&](int x, int y, bool whole) {
        const std::size_t region = std::size_t(of.at(x, y));
        if ((covered[region] > all_of_it) == whole) closed.at(x, y) = grounds[k];
      };
      cells_near(points_[k], 0, count, reach_of(k), [&](int x, int y) { close(x, y, true); });
      cells_near(points_[k], inner, count - inner, reach_of(k),
                 [&](int x, int y) { close(x, y, false); });
    }
    areas_.regions = connected(closed, areas_.enlarged);
  }

  /// How much of each region lies under lines.
  [[nodiscard]] std::vector<double> covered_shares() const {
    const Grid<int>& of = areas_.regions.of;
    std::vector<double> covered(areas_.regions.all.size(), 0);
    Grid<char> seen(of.width(), of.height(), 0);
    for (std::size_t k = 0; k < points_.size(); ++k) {
      cells_near(points_[k], 0, points_[k].size(), reach_of(k), [&](int x, int y) {
        if (seen.at(x, y) != 0) return;
        seen.at(x, y) = 1;
        covered[std::size_t(of.at(x, y))] += 1;
      });
    }
    for (std::size_t i = 0; i < covered.size(); ++i) {
      covered[i] /= double(areas_.regions.all[i].area);
    }
    return covered;
  }

  /// A short line along which lies part of a larger shape is a limb of that shape, and stays with
  /// it: the stem of a letter.
  void drop_parts_of_shapes() {
    const std::vector<double> covered = covered_shares();
    std::vector<ThinLine> lines;
    std::vector<std::vector<Spot>> points;
    for (std::size_t k = 0; k < lines_.size(); ++k) {
      double own = 0, all = 0;
      for (const Spot& p : points_[k]) {
        const int x = int(p.x * areas_.scale), y = int(p.y * areas_.scale);
        if (!areas_.regions.of.has(x, y)) continue;
        all += 1;
        const std::size_t region = std::size_t(areas_.regions.of.at(x, y));
        // The ground itself, where the line was too faint to be a region, is as good.
        const bool is_ground = covered[region] < 0.05;
        own += covered[region] > all_of_it || is_ground ? 1 : 0;
      }
      if (own < 0.7 * all && double(points_[k].size()) < long_line) continue;
      lines.push_back(lines_[k]);
      points.push_back(points_[k]);
    }
    lines_ = std::move(lines);
    points_ = std::move(points);
  }

  [[nodiscard]] double reach_of(std::size_t line) const {
    return lines_[line].stroke.width / 2 + 1.3;
  }

  /// The label that is met most often on both sides.
  [[nodiscard]] int ground_of(const Grid<int>& labels, const std::vector<Spot>& points,
                              double away) const {
    std::map<int, int> met;
    for (std::size_t i = 1; i + 1 < points.size(); ++i) {
      const Spot way = unit(points[i + 1] - points[i - 1]);
      for (const double side : {-away, away}) {
        const Spot at = points[i] + Spot{-way.y, way.x} * side;
        ++met[labels.near(int(at.x * areas_.scale), int(at.y * areas_.scale))];
      }
    }
    int best = 0, most = -1;
    for (const auto& [label, count] : met) {
      if (count <= most) continue;
      most = count;
      best = label;
    }
    return best;
  }

  Areas& areas_;
  const FitRules& rules_;
  std::vector<int> flat_;  // of each colour, the pixels that show it unmixed
  std::vector<ThinLine> lines_;
  std::vector<std::vector<Spot>> points_;  // of each line
};

}  // namespace

std::vector<ThinLine> take_thin_lines(Areas& areas, const FitRules& rules) {
  return LineFinder(areas, rules).run();
}

}  // namespace quoin::trace
