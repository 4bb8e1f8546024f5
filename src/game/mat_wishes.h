#pragma once
#include <map>
#include <optional>
#include <string>
#include <string_view>

#include "base/origin.h"
#include "geometry/geometry.h"

namespace quoin::game {

enum class MatMaterial { paper, cloth };

/// A mat measures between these on each side.
inline constexpr Mm smallest_mat_side{100}, largest_mat_side{2000};

/// What [mat] says, defaults filled in.
struct MatWishes {
  Size size{Mm{594}, Mm{420}};  ///< finished, as it lies on the table
  std::string size_name = "A2";
  MatMaterial material = MatMaterial::paper;
  std::optional<Mm> bleed;  ///< the cards' when not given
  Mm safe{8};               ///< how far words and places keep from the finished edge
  Mm hem;                   ///< what is folded to the back on each side; 0 for paper
  /// What cloth loses of its width and of its height when it is fixed and washed, 0..0.2; 0 for
  /// paper.
  double shrink_across = 0, shrink_down = 0;
  Mm viewing_distance{600};  ///< from the eye to the mat
  Mm overlap{8};             ///< that two sheets of the tiled mat print both
  std::string layout = "layouts/mat.toml";
  int art = -1;   ///< index into Game::layouts; -1: it could not be read
  Origin origin;  ///< of [mat]
  std::map<std::string, Origin, std::less<>> places;  ///< of the keys that were given

  /// Of the key's value, or of [mat] when the key was not given.
  [[nodiscard]] Origin place(std::string_view key) const {
    const auto found = places.find(key);
    return found == places.end() ? origin : found->second;
  }
};

}  // namespace quoin::game
