#pragma once
#include <optional>
#include <string>
#include <vector>

#include "pieces/card/inspect.h"
#include "pieces/card/inspect_leaves.h"
#include "pieces/card/inspect_pixels.h"

namespace quoin::pieces {

/// What the parts of `check_face` share while they look at one face.
struct Inspection {
  const Face& face;
  const game::Limits& limits;
  const FaceLook& look;
  const std::vector<Leaf>& leaves;
  Diagnostics& found;

  /// Adds a finding about a leaf, with its place and element, and returns it for details.
  Diagnostic& report(Id id, const Leaf& leaf, std::string message) const;
  /// The pixels beneath a leaf, or null when none were kept for it.
  [[nodiscard]] const Ground* beneath(const Leaf& leaf) const;
  /// The pixel of middle luminance beneath a leaf.
  [[nodiscard]] std::optional<std::uint32_t> typical_ground(const Leaf& leaf) const;
};

void check_resolution(const Inspection& inspection);
void check_bleed(const Inspection& inspection);
void check_safe_area(const Inspection& inspection);
void check_setting(const Inspection& inspection);
void check_type_size(const Inspection& inspection);
void check_lines(const Inspection& inspection);
void check_contrast(const Inspection& inspection);

/// The colours that a paint has: one, all stops of a gradient, or none.
[[nodiscard]] std::vector<Colour> colours_of(const Paint& paint);
/// The colours of the letters' inside; of their innermost line when they have no fill.
[[nodiscard]] std::vector<Colour> letter_colours(const TextStyle& style);

/// "8.5", "6", "0.088": at most `decimals` decimals, no zeros at the end, never "-0".
[[nodiscard]] std::string plain(double value, int decimals);
/// "3.0 mm": one decimal, the same in every message.
[[nodiscard]] std::string in_mm(Mm length);
/// "5.2 pt" for a type size.
[[nodiscard]] std::string in_points(Mm size);
[[nodiscard]] double points(Mm size);
/// "the top", "the top and left", "the top, right and bottom" from single words.
[[nodiscard]] std::string listed(const std::vector<std::string>& words);

}  // namespace quoin::pieces
