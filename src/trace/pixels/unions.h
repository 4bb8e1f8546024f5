#pragma once
#include <algorithm>
#include <numeric>
#include <vector>

namespace quoin::trace {

/// Which things have become one.
class Unions {
 public:
  explicit Unions(int count) : parent_(std::size_t(count)) {
    std::iota(parent_.begin(), parent_.end(), 0);
  }
  int add() {
    parent_.push_back(static_cast<int>(parent_.size()));
    return parent_.back();
  }
  int find(int one) {
    while (parent_[std::size_t(one)] != one) {
      parent_[std::size_t(one)] = parent_[std::size_t(parent_[std::size_t(one)])];
      one = parent_[std::size_t(one)];
    }
    return one;
  }
  /// The smaller number stays.
  void join(int a, int b) {
    a = find(a);
    b = find(b);
    parent_[std::size_t(std::max(a, b))] = std::min(a, b);
  }

 private:
  std::vector<int> parent_;
};

}  // namespace quoin::trace
