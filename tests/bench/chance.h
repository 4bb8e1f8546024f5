#pragma once
#include <cstdint>

namespace quoin::bench {

/// A small repeatable source of numbers, so that each run on any machine measures the same game.
///
/// SplitMix64 (Steele, Lea, Flood, "Fast splittable pseudorandom number generators", OOPSLA 2014);
/// the standard library's distributions may differ between libraries, these do not.
class Chance {
 public:
  explicit Chance(std::uint64_t seed) : state_(seed) {}

  [[nodiscard]] std::uint64_t next() {
    state_ += 0x9e3779b97f4a7c15ULL;
    std::uint64_t z = state_;
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9ULL;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebULL;
    return z ^ (z >> 31);
  }
  /// From 0, up to and without 1.
  [[nodiscard]] double fraction() { return static_cast<double>(next() >> 11) * 0x1p-53; }
  [[nodiscard]] double between(double low, double high) { return low + (high - low) * fraction(); }
  [[nodiscard]] int below(int end) {
    return static_cast<int>(next() % static_cast<std::uint64_t>(end));
  }

 private:
  std::uint64_t state_;
};

}  // namespace quoin::bench
