#include "trace/pixels/explain.h"

#include "trace/pixels/regions.h"

#include <optional>

namespace quoin::trace {
namespace {

// Squared sRGB steps along a pixel of border: little at first, so that a line can begin with a
// single cell, and then as much as a smooth border is worth.
constexpr float first_price = 60, last_price = 400;
constexpr float corner_share = 0.7F;   // of that where cells touch at a corner
constexpr float least_error = 14;      // sRGB steps: less is explained well
constexpr float share_of_step = 0.1F;  // of the contrast of the cells: less is where a border lies
constexpr int most_rounds = 6;

class Explainer {
 public:
  Explainer(Grid<int>& cells, const Coloured& picture)
      : cells_(cells),
        picture_(picture),
        srgb_(picture.palette.srgb),
        scale_(picture.scale),
        share_(1 / static_cast<float>(picture.scale * picture.scale)),
        error_(picture.pixels.width(), picture.pixels.height()),
        moved_in_(picture.pixels.width(), picture.pixels.height()) {}

  void run() {
    for (int y = 0; y < error_.height(); ++y) {
      for (int x = 0; x < error_.width(); ++x) {
        error_.at(x, y) = mixture(x, y) - three(picture_.pixels.at(x, y));
      }
    }
    const std::vector<std::pair<int, int>> open = unexplained();
    lower(open, first_price, most_rounds);
    lower(open, last_price, most_rounds / 2);
    join_at_corners();
  }

 private:
  [[nodiscard]] Three colour(int label) const { return srgb_[std::size_t(label)]; }

  [[nodiscard]] Three mixture(int x, int y) const {
    Three sum;
    for (int v = 0; v < scale_; ++v) {
      for (int u = 0; u < scale_; ++u) {
        sum = sum + colour(cells_.at(x * scale_ + u, y * scale_ + v));
      }
    }
    return sum * share_;
  }

  /// Moves cells until none gains by it.
  void lower(const std::vector<std::pair<int, int>>& open, float price, int rounds) {
    side_ = price / static_cast<float>(scale_);
    corner_ = side_ * corner_share;
    moved_in_.cells().assign(moved_in_.cells().size(), 0);
    for (int round = 1; round <= rounds; ++round) {
      int moved = 0;
      for (const auto& [x, y] : open) {
        if (round > 1 && !moved_near(x, y, round - 1)) continue;
        const int here = improve(x, y);
        if (here > 0) moved_in_.at(x, y) = round;
        moved += here;
      }
      if (moved == 0) return;
    }
  }

  /// Whether a pixel or one beside it changed in that round or after it.
  [[nodiscard]] bool moved_near(int x, int y, int round) const {
    for (int v = y - 1; v <= y + 1; ++v) {
      for (int u = x - 1; u <= x + 1; ++u) {
        if (moved_in_.near(u, v) >= round) return true;
      }
    }
    return false;
  }

  /// The largest step between a cell of the pixel or round it and another.
  [[nodiscard]] float contrast(int x, int y) const {
    const int own = cells_.at(x * scale_, y * scale_);
    float most = 0;
    int last = own;
    for (int v = y * scale_ - 1; v <= (y + 1) * scale_; ++v) {
      for (int u = x * scale_ - 1; u <= (x + 1) * scale_; ++u) {
        const int other = cells_.near(u, v);
        if (other == last) continue;
        last = other;
        most = std::max(most, squared(colour(other) - colour(own)));
      }
    }
    return std::sqrt(most);
  }

  /// Pixels that their cells do not explain, and the ones beside them.
  [[nodiscard]] std::vector<std::pair<int, int>> unexplained() const {
    Grid<char> open(error_.width(), error_.height(), 0);
    for (int y = 0; y < error_.height(); ++y) {
      for (int x = 0; x < error_.width(); ++x) {
        if (picture_.core.flat(x, y)) continue;  // it shows its own colour, or a shade
        const float off = squared(error_.at(x, y));
        if (off < least_error * least_error) continue;
        const float step = share_of_step * contrast(x, y);
        if (off < step * step) continue;
        for (int v = std::max(0, y - 1); v <= std::min(error_.height() - 1, y + 1); ++v) {
          for (int u = std::max(0, x - 1); u <= std::min(error_.width() - 1, x + 1); ++u) {
            open.at(u, v) = 1;
          }
        }
      }
    }
    std::vector<std::pair<int, int>> all;
    for (int y = 0; y < open.height(); ++y) {
      for (int x = 0; x < open.width(); ++x) {
        if (open.at(x, y) != 0 && !picture_.core.flat(x, y)) all.emplace_back(x, y);
      }
    }
    return all;
  }

  /// The price of the sides of a cell if it had that label.
  [[nodiscard]] float sides(int u, int v, int label) const {
    float price = 0;
    for (int j = -1; j <= 1; ++j) {
      for (int i = -1; i <= 1; ++i) {
        if ((i == 0 && j == 0) || !cells_.has(u + i, v + j)) continue;
        if (cells_.at(u + i, v + j) != label) price += (i == 0 || j == 0 ? side_ : corner_);
      }
    }
    return price;
  }

  /// The colours among which the cells of a pixel may choose: those round it.
  void find_candidates(int x, int y) {
    candidates_.clear();
    for (int v = (y - 1) * scale_; v < (y + 2) * scale_; ++v) {
      for (int u = (x - 1) * scale_; u < (x + 2) * scale_; ++u) add(cells_.near(u, v));
    }
  }

  void add(int label) {
    if (std::find(candidates_.begin(), candidates_.end(), label) == candidates_.end()) {
      candidates_.push_back(label);
    }
  }

  /// A thin line that runs aslant between two grounds is a row of pieces that touch at corners:
  /// there one of the cells beside the corner is made part of it.
  void join_at_corners() {
    const Regions regions = connected(cells_, picture_.enlarged);
    for (int y = 0; y + 1 < cells_.height(); ++y) {
      for (int x = 0; x + 1 < cells_.width(); ++x) {
        join_corner(regions, {x, y}, {x + 1, y + 1}, {x + 1, y}, {x, y + 1});
        join_corner(regions, {x + 1, y}, {x, y + 1}, {x, y}, {x + 1, y + 1});
      }
    }
  }

  using Cell = std::pair<int, int>;

  void join_corner(const Regions& regions, Cell one, Cell other, Cell p, Cell q) {
    const int label = cells_.at(one.first, one.second);
    if (cells_.at(other.first, other.second) != label) return;
    const int beside_p = cells_.at(p.first, p.second), beside_q = cells_.at(q.first, q.second);
    if (beside_p == label || beside_q == label || beside_p == beside_q) return;
    if (regions.of.at(one.first, one.second) == regions.of.at(other.first, other.second)) return;
    const Cell taken = error_with(p, label) < error_with(q, label) ? p : q;
    Three& error = error_.at(taken.first / scale_, taken.second / scale_);
    int& cell = cells_.at(taken.first, taken.second);
    error = error + (colour(label) - colour(cell)) * share_;
    cell = label;
  }

  /// How much worse the pixel of a cell is explained when the cell has that label.
  [[nodiscard]] float error_with(Cell cell, int label) const {
    const Three now = error_.at(cell.first / scale_, cell.second / scale_);
    const Three then = now + (colour(label) - colour(cells_.at(cell.first, cell.second))) * share_;
    return squared(then) - squared(now);
  }

  /// How many cells of the pixel were moved.
  int improve(int x, int y) {
    find_candidates(x, y);
    int moved = 0;
    for (int v = y * scale_; v < (y + 1) * scale_; ++v) {
      for (int u = x * scale_; u < (x + 1) * scale_; ++u) {
        const int own = cells_.at(u, v);
        const Three rest = error_.at(x, y) - colour(own) * share_;
        int best = own;
        float least = squared(error_.at(x, y)) + sides(u, v, own);
        for (const int label : candidates_) {
          if (label == own) continue;
          const float energy = squared(rest + colour(label) * share_) + sides(u, v, label);
          if (energy >= least - 1) continue;
          least = energy;
          best = label;
        }
        if (best == own) continue;
        cells_.at(u, v) = best;
        error_.at(x, y) = rest + colour(best) * share_;
        ++moved;
      }
    }
    return moved;
  }

  Grid<int>& cells_;
  const Coloured& picture_;
  const std::vector<Three>& srgb_;
  int scale_;
  float side_ = 0, corner_ = 0;
  float share_;
  Grid<Three> error_;   ///< of each pixel: what its cells mix to, less what it shows
  Grid<int> moved_in_;  ///< the round in which a pixel last changed
  std::vector<int> candidates_;
};

/// How far a colour is from all mixtures of two colours.
float off_mixtures(Three colour, Three a, Three b) {
  const Three way = b - a;
  const float length = squared(way);
  const float share = length < 1 ? 0 : std::clamp(dot(colour - a, way) / length, 0.0F, 1.0F);
  return distance(colour, a + way * share);
}

/// Areas of a colour that no pixel shows by itself and that is a mixture of two of its neighbours:
/// parts of a line one pixel wide, say, that happen to look like a third colour of the picture.
class MixtureDissolver {
 public:
  MixtureDissolver(Grid<int>& cells, const Coloured& picture)
      : cells_(cells), picture_(picture), regions_(connected(cells, picture.enlarged)) {}

  int run() {
    find_shown();
    std::vector<std::vector<std::pair<int, int>>> round(regions_.all.size());
    for (const Contact& c : contacts(regions_)) {
      round[std::size_t(c.a)].emplace_back(c.b, c.length);
      round[std::size_t(c.b)].emplace_back(c.a, c.length);
    }
    std::vector<std::optional<std::pair<int, int>>> parts(regions_.all.size());
    int count = 0;
    for (std::size_t i = 0; i < parts.size(); ++i) {
      if (shown_[i] >= enough) continue;
      parts[i] = parts_of(regions_.all[i].label, round[i]);
      count += parts[i] ? 1 : 0;
    }
    if (count == 0) return 0;
    for (std::size_t i = 0; i < cells_.cells().size(); ++i) {
      const auto& pair = parts[std::size_t(regions_.of.cells()[i])];
      if (!pair) continue;
      const Three own = three(picture_.enlarged.cells()[i]);
      const bool first = squared(own - colour(pair->first)) < squared(own - colour(pair->second));
      cells_.cells()[i] = first ? pair->first : pair->second;
    }
    return count;
  }

 private:
  [[nodiscard]] Three colour(int label) const { return picture_.palette.srgb[std::size_t(label)]; }

  /// Which regions have a pixel that shows their colour unmixed, or are lines over one ground.
  void find_shown() {
    shown_.assign(regions_.all.size(), 0);
    const int scale = picture_.scale;
    for (int y = 0; y < picture_.lab.height(); ++y) {
      for (int x = 0; x < picture_.lab.width(); ++x) {
        const std::size_t region = std::size_t(regions_.of.at(x * scale, y * scale));
        if (picture_.core.flat(x, y)) shown_[region] = enough;
        const Ridge* ridge = picture_.core.ridge(x, y);
        if (ridge == nullptr || distance(ridge->one_side, ridge->other_side) > one_ground) continue;
        if (shown_[region] < enough) ++shown_[region];
      }
    }
  }

  /// The two neighbours that best mix to a colour; nothing when none do.
  [[nodiscard]] std::optional<std::pair<int, int>> parts_of(
      int label, const std::vector<std::pair<int, int>>& round) const {
    constexpr float near_mixture = 20;  // sRGB steps
    std::optional<std::pair<int, int>> best;
    float least = near_mixture;
    for (std::size_t i = 0; i < round.size(); ++i) {
      for (std::size_t j = i + 1; j < round.size(); ++j) {
        const int a = regions_.all[std::size_t(round[i].first)].label;
        const int b = regions_.all[std::size_t(round[j].first)].label;
        if (a == b || a == label || b == label) continue;
        const Three way = colour(b) - colour(a);
        const float share = dot(colour(label) - colour(a), way) / squared(way);
        if (share < 0.12F || share > 0.88F) continue;
        const float off = off_mixtures(colour(label), colour(a), colour(b));
        if (off >= least) continue;
        least = off;
        best = {a, b};
      }
    }
    return best;
  }

  static constexpr char enough = 3;        // pixels of a line
  static constexpr float one_ground = 15;  // dE76
  Grid<int>& cells_;
  const Coloured& picture_;
  Regions regions_;
  std::vector<char> shown_;
};

/// Pixels of a colour that is neither in the palette nor a mixture of what is round them.
class MissingColours {
 public:
  MissingColours(const Grid<int>& cells, const Coloured& picture)
      : cells_(cells), picture_(picture) {}

  std::vector<Three> find(int most) {
    for (int y = 1; y + 1 < picture_.lab.height(); ++y) {
      for (int x = 1; x + 1 < picture_.lab.width(); ++x) look_at(x, y);
    }
    std::vector<Three> found;
    while (static_cast<int>(found.size()) < most && !odd_.empty()) {
      if (auto colour = take_largest()) {
        found.push_back(*colour);
      } else {
        break;
      }
    }
    return found;
  }

 private:
  struct Odd {
    Three lab;
    float off = 0;  // how far from what the palette can explain
  };

  void look_at(int x, int y) {
    const Three pixel = picture_.lab.at(x, y);
    const Palette& palette = picture_.palette;
    const Three nearest = palette.lab[std::size_t(palette.nearest(pixel))];
    if (distance(pixel, nearest) < unlike) return;
    labels_.clear();
    const int scale = picture_.scale;
    for (int v = (y - 1) * scale; v < (y + 2) * scale; ++v) {
      for (int u = (x - 1) * scale; u < (x + 2) * scale; ++u) {
        const int label = cells_.near(u, v);
        if (std::find(labels_.begin(), labels_.end(), label) == labels_.end()) {
          labels_.push_back(label);
        }
      }
    }
    float off = distance(pixel, nearest);
    for (std::size_t i = 0; i < labels_.size(); ++i) {
      for (std::size_t j = i; j < labels_.size(); ++j) {
        off = std::min(off, off_mixtures(pixel, palette.lab[std::size_t(labels_[i])],
                                         palette.lab[std::size_t(labels_[j])]));
      }
    }
    if (off >= unlike) odd_.push_back({pixel, off});
  }

  /// The colour that most of the odd pixels share, when enough do, and takes those away. Of these
  /// the purest count: the others are mixtures of it themselves.
  std::optional<Three> take_largest() {
    std::size_t best = 0, most = 0;
    for (std::size_t i = 0; i < std::min(odd_.size(), most_looked_at); ++i) {
      const auto near =
          static_cast<std::size_t>(std::count_if(odd_.begin(), odd_.end(), [&](const Odd& other) {
            return distance(other.lab, odd_[i].lab) < one_colour;
          }));
      if (near <= most) continue;
      most = near;
      best = i;
    }
    if (most < least_pixels) return std::nullopt;
    const Three middle = odd_[best].lab;
    std::vector<Odd> near;
    std::erase_if(odd_, [&](const Odd& other) {
      if (distance(other.lab, middle) >= one_colour) return false;
      near.push_back(other);
      return true;
    });
    std::sort(near.begin(), near.end(), [](const Odd& a, const Odd& b) { return a.off > b.off; });
    const std::size_t purest = std::max<std::size_t>(3, near.size() / 4);
    Three sum;
    for (std::size_t i = 0; i < std::min(purest, near.size()); ++i) sum = sum + near[i].lab;
    return sum * (1 / static_cast<float>(std::min(purest, near.size())));
  }

  static constexpr float unlike = 13, one_colour = 12;  // dE76
  static constexpr std::size_t least_pixels = 8, most_looked_at = 2000;

  const Grid<int>& cells_;
  const Coloured& picture_;
  std::vector<int> labels_;
  std::vector<Odd> odd_;
};

}  // namespace

std::vector<Three> missing_colours(const Grid<int>& cells, const Coloured& picture, int most) {
  return MissingColours(cells, picture).find(most);
}

void explain_pixels(Grid<int>& cells, const Coloured& picture) {
  MixtureDissolver(cells, picture).run();
  Explainer(cells, picture).run();
}

}  // namespace quoin::trace
