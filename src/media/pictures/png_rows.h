#pragma once
#include <cstddef>
#include <cstdint>

namespace quoin::pictures {

// Loops over rows gain a factor of five from vector instructions, which this compiler makes at -O3
// only; other code is no better for it. Stands at the head of such a source, before any function.
#if defined(__GNUC__) && !defined(__clang__)
#define QUOIN_VECTOR_LOOPS _Pragma("GCC optimize(\"O3\")")
#else
#define QUOIN_VECTOR_LOOPS
#endif

/// The neighbour (left, above or above left) nearest to left + above - above left.
/// Source: W3C PNG, third edition, clause 9.4. Written without branches, which painted art would
/// mispredict at every other byte.
[[nodiscard]] inline int paeth(int left, int above, int above_left) {
  const auto a = static_cast<std::int16_t>(above - above_left);
  const auto b = static_cast<std::int16_t>(left - above_left);
  const auto sum = static_cast<std::int16_t>(a + b);
  const auto to_left = static_cast<std::int16_t>(a < 0 ? -a : a);
  const auto to_above = static_cast<std::int16_t>(b < 0 ? -b : b);
  const auto to_corner = static_cast<std::int16_t>(sum < 0 ? -sum : sum);
  const int nearer = to_left <= to_above ? left : above;
  const std::int16_t its_distance = to_left <= to_above ? to_left : to_above;
  return its_distance <= to_corner ? nearer : above_left;
}

/// One row of filtered bytes turned back in place; `above` is the row before it, undone already,
/// and `step` the bytes between a sample and the same one of its left neighbour: 1, 2, 3, 4, 6, 8.
void undo_filter(int filter, std::uint8_t* row, const std::uint8_t* above, std::size_t bytes,
                 std::size_t step);

}  // namespace quoin::pictures
