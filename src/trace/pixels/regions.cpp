#include "trace/pixels/regions.h"

#include <array>

#include "trace/pixels/unions.h"

namespace quoin::trace {
namespace {

/// Sorts contacts and adds up those of the same pair.
void add_up(std::vector<Contact>& all) {
  std::sort(all.begin(), all.end(),
            [](const Contact& p, const Contact& q) { return p.a != q.a ? p.a < q.a : p.b < q.b; });
  std::size_t kept = 0;
  for (std::size_t i = 0; i < all.size(); ++i) {
    if (kept > 0 && all[kept - 1].a == all[i].a && all[kept - 1].b == all[i].b) {
      all[kept - 1].length += all[i].length;
    } else {
      all[kept++] = all[i];
    }
  }
  all.resize(kept);
}

/// Single cells that stick into another colour, most of what is round them.
void drop_lone_cells(Grid<int>& labels) {
  const Grid<int> before = labels;
  for (int y = 1; y + 1 < before.height(); ++y) {
    for (int x = 1; x + 1 < before.width(); ++x) {
      const int own = before.at(x, y);
      if (before.at(x - 1, y) == own && before.at(x + 1, y) == own) continue;
      std::array<int, 8> round{};
      std::size_t n = 0;
      int same = 0;
      for (int v = -1; v <= 1; ++v) {
        for (int u = -1; u <= 1; ++u) {
          if (u == 0 && v == 0) continue;
          round[n] = before.at(x + u, y + v);
          same += round[n++] == own ? 1 : 0;
        }
      }
      if (same > 2) continue;
      for (const int other : round) {
        if (other != own && std::count(round.begin(), round.end(), other) >= 5) {
          labels.at(x, y) = other;
        }
      }
    }
  }
}

float contrast(const Palette& palette, int a, int b) {
  return distance(palette.srgb[std::size_t(a)], palette.srgb[std::size_t(b)]);
}

/// The regions while specks are dropped, without touching a cell.
class SpeckDropper {
 public:
  SpeckDropper(const Regions& regions, const Coloured& picture, const SpeckRules& rules)
      : regions_(regions.all),
        contacts_(contacts(regions)),
        unions_(regions.count()),
        palette_(picture.palette),
        rules_(rules),
        cells_(rules.pixels * picture.scale * picture.scale) {}

  /// The label that each of the first regions has in the end.
  std::vector<int> run() {
    const double step = std::max(1.0, cells_ / 6);
    int left = static_cast<int>(regions_.size());
    double limit = 1 - step;
    for (int pass = 0; pass < 40; ++pass) {
      // In plain noise no region is large: then the limit must grow faster than by steps.
      limit = pass < 12 ? limit + step : limit * 1.3;
      if (limit > cells_ + step && left <= rules_.most) break;
      left -= drop(left > rules_.most ? limit : std::min(limit, cells_));
    }
    std::vector<int> labels(regions_.size());
    for (std::size_t i = 0; i < labels.size(); ++i) {
      labels[i] = regions_[std::size_t(unions_.find(static_cast<int>(i)))].label;
    }
    return labels;
  }

 private:
  struct Choice {
    int label = -1;
    double score = -1;
    float against = 0;  // contrast with the neighbour chosen
  };

  void consider(std::vector<Choice>& choices, int one, int other, int length) const {
    const Region& a = regions_[std::size_t(one)];
    const Region& b = regions_[std::size_t(other)];
    const double unlike = distance(a.mean, palette_.srgb[std::size_t(b.label)]);
    const double score = length / (20 + unlike);
    Choice& best = choices[std::size_t(one)];
    if (score <= best.score) return;
    best = {b.label, score, contrast(palette_, a.label, b.label)};
  }

  [[nodiscard]] double limit_for(double limit, float against) const {
    if (against > 110) return std::max(1.0, limit / 3);
    return against < 45 ? limit * (1 + 2 * rules_.noise) : limit;
  }

  int join(int a, int b) {
    a = unions_.find(a);
    b = unions_.find(b);
    if (a == b) return 0;
    unions_.join(a, b);
    Region& into = regions_[std::size_t(std::min(a, b))];
    const Region& gone = regions_[std::size_t(std::max(a, b))];
    const float share = static_cast<float>(gone.area) / static_cast<float>(gone.area + into.area);
    into.mean = into.mean * (1 - share) + gone.mean * share;
    into.area += gone.area;
    return 1;
  }

  /// Recolours what is smaller than the limit and joins what then touches its own colour.
  int drop(double limit) {
    std::vector<Choice> choices(regions_.size());
    for (const Contact& c : contacts_) {
      consider(choices, c.a, c.b, c.length);
      consider(choices, c.b, c.a, c.length);
    }
    bool any = false;
    std::vector<std::pair<std::size_t, int>> recoloured;
    for (std::size_t i = 0; i < regions_.size(); ++i) {
      if (unions_.find(static_cast<int>(i)) != static_cast<int>(i)) continue;
      const Choice& choice = choices[i];
      if (choice.label < 0) continue;
      if (double(regions_[i].area) >= limit_for(limit, choice.against)) continue;
      recoloured.emplace_back(i, choice.label);
      any = true;
    }
    if (!any) return 0;
    for (const auto& [region, label] : recoloured) regions_[region].label = label;
    int joined = 0;
    for (const Contact& c : contacts_) {
      const int a = unions_.find(c.a), b = unions_.find(c.b);
      if (regions_[std::size_t(a)].label == regions_[std::size_t(b)].label) joined += join(a, b);
    }
    renumber();
    return joined;
  }

  void renumber() {
    std::size_t kept = 0;
    for (Contact c : contacts_) {
      c.a = unions_.find(c.a);
      c.b = unions_.find(c.b);
      if (c.a == c.b) continue;
      if (c.a > c.b) std::swap(c.a, c.b);
      contacts_[kept++] = c;
    }
    contacts_.resize(kept);
    add_up(contacts_);
  }

  std::vector<Region> regions_;
  std::vector<Contact> contacts_;
  Unions unions_;
  const Palette& palette_;
  SpeckRules rules_;
  double cells_;
};

/// Gives the nearer of two cells `label`.
void take_nearer(Grid<int>& labels, const Coloured& picture, int label, std::pair<int, int> p,
                 std::pair<int, int> q) {
  const Three colour = picture.palette.srgb[std::size_t(label)];
  const auto far = [&](std::pair<int, int> cell) {
    return squared(three(picture.enlarged.at(cell.first, cell.second)) - colour);
  };
  const auto& nearer = far(p) < far(q) ? p : q;
  labels.at(nearer.first, nearer.second) = label;
}

/// Opens corners where two colours meet themselves crosswise; how many there were.
int open_crossings(Grid<int>& labels, const Coloured& picture) {
  int opened = 0;
  for (int y = 0; y + 1 < labels.height(); ++y) {
    for (int x = 0; x + 1 < labels.width(); ++x) {
      const int a = labels.at(x, y), b = labels.at(x + 1, y);
      if (a == b || labels.at(x + 1, y + 1) != a || labels.at(x, y + 1) != b) continue;
      const Three mean =
          (three(picture.enlarged.at(x, y)) + three(picture.enlarged.at(x + 1, y)) +
           three(picture.enlarged.at(x, y + 1)) + three(picture.enlarged.at(x + 1, y + 1))) *
          0.25F;
      const auto& srgb = picture.palette.srgb;
      if (squared(mean - srgb[std::size_t(a)]) < squared(mean - srgb[std::size_t(b)])) {
        take_nearer(labels, picture, a, {x + 1, y}, {x, y + 1});
      } else {
        take_nearer(labels, picture, b, {x, y}, {x + 1, y + 1});
      }
      ++opened;
    }
  }
  return opened;
}

}  // namespace

Regions connected(const Grid<int>& labels, const Grid<Rgb>& enlarged) {
  Regions regions;
  regions.of = Grid<int>(labels.width(), labels.height(), -1);
  Unions unions(0);
  for (int y = 0; y < labels.height(); ++y) {
    for (int x = 0; x < labels.width(); ++x) {
      const int own = labels.at(x, y);
      const int left = x > 0 && labels.at(x - 1, y) == own ? regions.of.at(x - 1, y) : -1;
      const int above = y > 0 && labels.at(x, y - 1) == own ? regions.of.at(x, y - 1) : -1;
      if (left >= 0 && above >= 0 && left != above) unions.join(left, above);
      regions.of.at(x, y) = left >= 0 ? left : above >= 0 ? above : unions.add();
    }
  }
  struct Sum {
    double red = 0, green = 0, blue = 0;
  };
  std::vector<Sum> sums;
  std::vector<int> number;
  for (std::size_t i = 0; i < labels.cells().size(); ++i) {
    const int root = unions.find(regions.of.cells()[i]);
    if (std::size_t(root) >= number.size()) number.resize(std::size_t(root) + 1, -1);
    if (number[std::size_t(root)] < 0) {
      number[std::size_t(root)] = regions.count();
      regions.all.push_back({labels.cells()[i], 0, {}});
      sums.emplace_back();
    }
    const int own = number[std::size_t(root)];
    regions.of.cells()[i] = own;
    ++regions.all[std::size_t(own)].area;
    const Rgb pixel = enlarged.cells()[i];
    Sum& sum = sums[std::size_t(own)];
    sum.red += pixel.red;
    sum.green += pixel.green;
    sum.blue += pixel.blue;
  }
  for (std::size_t i = 0; i < sums.size(); ++i) {
    const double n = static_cast<double>(regions.all[i].area);
    regions.all[i].mean = {float(sums[i].red / n), float(sums[i].green / n),
                           float(sums[i].blue / n)};
  }
  return regions;
}

std::vector<Contact> contacts(const Regions& regions) {
  std::vector<Contact> all;
  const Grid<int>& of = regions.of;
  const auto see = [&](int p, int q) {
    if (p == q) return;
    const int a = std::min(p, q), b = std::max(p, q);
    if (!all.empty() && all.back().a == a && all.back().b == b) {
      ++all.back().length;
    } else {
      all.push_back({a, b, 1});
    }
  };
  for (int y = 0; y < of.height(); ++y) {
    for (int x = 0; x + 1 < of.width(); ++x) see(of.at(x, y), of.at(x + 1, y));
  }
  for (int y = 0; y + 1 < of.height(); ++y) {
    for (int x = 0; x < of.width(); ++x) see(of.at(x, y), of.at(x, y + 1));
  }
  add_up(all);
  return all;
}

Regions without_specks(Grid<int> labels, const Coloured& picture, const SpeckRules& rules) {
  drop_lone_cells(labels);
  {
    const Regions first = connected(labels, picture.enlarged);
    const std::vector<int> kept = SpeckDropper(first, picture, rules).run();
    for (std::size_t i = 0; i < labels.cells().size(); ++i) {
      labels.cells()[i] = kept[std::size_t(first.of.cells()[i])];
    }
  }
  for (int pass = 0; pass < 4 && open_crossings(labels, picture) > 0; ++pass) {
  }
  return connected(labels, picture.enlarged);
}

}  // namespace quoin::trace
