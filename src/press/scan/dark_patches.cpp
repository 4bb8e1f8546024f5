#include "press/scan/dark_patches.h"

#include <algorithm>
#include <cstdint>
#include <numeric>

namespace quoin::press {
namespace {

/// Sums of all pixels above and to the left of a place: the mean of any window in four steps.
class Sums {
 public:
  explicit Sums(const GreyImage& image) : stride_(static_cast<std::size_t>(image.width) + 1) {
    sums_.assign(stride_ * (static_cast<std::size_t>(image.height) + 1), 0);
    for (int y = 0; y < image.height; ++y) {
      std::uint64_t row = 0;
      for (int x = 0; x < image.width; ++x) {
        row += image.at(x, y);
        at(x + 1, y + 1) = at(x + 1, y) + row;
      }
    }
  }

  [[nodiscard]] std::uint64_t over(int left, int top, int right, int bottom) const {
    return get(right, bottom) - get(left, bottom) - get(right, top) + get(left, top);
  }

 private:
  std::uint64_t& at(int x, int y) {
    return sums_[static_cast<std::size_t>(y) * stride_ + static_cast<std::size_t>(x)];
  }
  [[nodiscard]] std::uint64_t get(int x, int y) const {
    return sums_[static_cast<std::size_t>(y) * stride_ + static_cast<std::size_t>(x)];
  }

  std::size_t stride_;
  std::vector<std::uint64_t> sums_;
};

std::vector<DarkRun> dark_runs(const GreyImage& image, int reach, double part) {
  const Sums sums(image);
  std::vector<DarkRun> runs;
  for (int y = 0; y < image.height; ++y) {
    const int top = std::max(0, y - reach), bottom = std::min(image.height, y + reach + 1);
    int from = -1;
    for (int x = 0; x <= image.width; ++x) {
      bool dark = false;
      if (x < image.width) {
        const int left = std::max(0, x - reach), right = std::min(image.width, x + reach + 1);
        const double count = static_cast<double>(right - left) * (bottom - top);
        const auto mean = static_cast<double>(sums.over(left, top, right, bottom)) / count;
        dark = image.at(x, y) < mean * part;
      }
      if (dark && from < 0) from = x;
      if (!dark && from >= 0) {
        runs.push_back({y, from, x});
        from = -1;
      }
    }
  }
  return runs;
}

/// Which runs belong together: each points towards the first of its patch.
class Groups {
 public:
  explicit Groups(std::size_t count) : parent_(count) {
    std::iota(parent_.begin(), parent_.end(), std::size_t{0});
  }
  std::size_t first_of(std::size_t i) {
    while (parent_[i] != i) i = parent_[i] = parent_[parent_[i]];
    return i;
  }
  void join(std::size_t a, std::size_t b) {
    a = first_of(a);
    b = first_of(b);
    parent_[std::max(a, b)] = std::min(a, b);
  }

 private:
  std::vector<std::size_t> parent_;
};

void join_touching(const std::vector<DarkRun>& runs, Groups& groups) {
  std::size_t above = 0;
  for (std::size_t i = 0; i < runs.size(); ++i) {
    while (above < i && runs[above].row < runs[i].row - 1) ++above;
    for (std::size_t k = above; k < i && runs[k].row < runs[i].row; ++k) {
      if (runs[k].from > runs[i].to) break;
      if (runs[k].to >= runs[i].from) groups.join(i, k);
    }
  }
}

}  // namespace

std::vector<DarkPatch> dark_patches(const GreyImage& image, int reach, double part,
                                    PatchSizes sizes) {
  const std::vector<DarkRun> runs = dark_runs(image, reach, part);
  Groups groups(runs.size());
  join_touching(runs, groups);
  std::vector<DarkPatch> patches;
  std::vector<int> patch_of(runs.size(), -1);
  for (std::size_t i = 0; i < runs.size(); ++i) {
    const std::size_t first = groups.first_of(i);
    if (patch_of[first] < 0) {
      patch_of[first] = static_cast<int>(patches.size());
      patches.push_back({runs[i].from, runs[i].row, runs[i].to, runs[i].row + 1, {}});
    }
    DarkPatch& patch = patches[static_cast<std::size_t>(patch_of[first])];
    patch.left = std::min(patch.left, runs[i].from);
    patch.right = std::max(patch.right, runs[i].to);
    patch.bottom = std::max(patch.bottom, runs[i].row + 1);
    patch.runs.push_back(runs[i]);
  }
  std::erase_if(patches, [&](const DarkPatch& patch) {
    const int size = std::max(patch.right - patch.left, patch.bottom - patch.top);
    return size < sizes.least || size > sizes.most;
  });
  return patches;
}

}  // namespace quoin::press
