#pragma once
#include "pack/box_files.h"

namespace quoin::pack {

/// "Tidewrack", 54 cards of 63.5 x 88.9 x 0.30 mm and a box of that kind in board of 0.40 mm, on
/// A4. For tests only.
[[nodiscard]] game::Game sample_game(const std::string& kind);

/// Grey art on every net, with 3 mm of bleed; the inside too when it is asked for.
enum class Inside { plain, printed };
[[nodiscard]] BoxArt sample_art(const pieces::Box& box, Inside inside);

/// A finding in full, each part on a line of its own.
[[nodiscard]] std::string whole(const Diagnostics& found);

}  // namespace quoin::pack
