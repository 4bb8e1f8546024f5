#pragma once
#include <string>
#include <vector>

#include "scene/scene.h"

namespace quoin::pack {

/// Height of the strip at the foot of a sheet with nets: a line of words, a key to the lines, and
/// the bar to measure.
inline constexpr Mm foot_height{14};

/// A sample of a line, 9 x 3 mm from the middle of its left end, and what it means.
struct KeyEntry {
  std::vector<Item> sample;
  std::string words;
};
inline constexpr Mm sample_width{9}, sample_height{3};

/// The strip in page coordinates. `strip` is `foot_height` high. Entries of the key stand side by
/// side; words shrink where they are too long.
[[nodiscard]] std::vector<Item> sheet_foot(Rect strip, const std::string& words,
                                           const std::vector<KeyEntry>& key);

}  // namespace quoin::pack
