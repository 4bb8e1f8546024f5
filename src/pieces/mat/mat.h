#pragma once
#include <array>
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "pieces/card/studio.h"
#include "pieces/mat/place_pattern.h"
#include "scene/scene.h"

namespace quoin::pieces {

/// A mat before anything is drawn on it. Its frame has the upper left corner of the finished mat
/// as its origin.
struct MatPlan {
  Size size;  ///< finished
  Mm bleed;   ///< past the edge at which it is cut
  Mm hem;     ///< from the finished edge to the edge at which it is cut; 0 for paper
  [[nodiscard]] Mm ink() const { return hem + bleed; }  ///< the drawing runs on so far
};
/// Of the game's [mat], which must be there.
[[nodiscard]] MatPlan mat_plan(const game::Game& game);

/// One place for a card on the mat.
struct CardPlace {
  std::string element;  ///< of the layout
  Origin origin;        ///< of the element
  int number = 1;       ///< among the places of its element
  Affine map;           ///< from the place's own frame, its middle the origin, to the mat's
  Size each;            ///< round it
  Size card;            ///< as it lies there
  bool fanned = false;  ///< lies over its neighbours on purpose
  bool turned = false;  ///< cards lie on it with their long side level
};

/// A mat as it is drawn. Texts are set; ink reaches `plan.ink()` past the finished edge.
struct Mat {
  MatPlan plan;
  Scene scene;
  std::vector<CardPlace> places;
  /// Part of its size and its bleed that each plate covers, 0..1, separated as `ink_on` says.
  std::array<double, 4> ink{};
};

inline constexpr std::size_t most_places = 500;

/// The game's mat, checked; nothing when the game asks for none, or its layout could not be read.
///
/// Finds what drawing a card's face finds (`face.*`, `picture.*`), what would disappoint on the
/// table (`mat.place-too-small`, `mat.places-overlap`, `mat.place-near-edge`, `mat.small-type`),
/// `mat.unknown-suit`, `mat.too-many-places`, and those checks of a card's face that hold for any
/// print (`art.low-resolution`, `art.short-of-bleed`, `card.outside-safe`, `card.thin-line`,
/// `card.low-contrast`, `card.text-too-long`, `text.*`), each `on` the mat and its element.
[[nodiscard]] Checked<std::optional<Mat>> make_mat(const Studio& studio, Typesetter& typesetter);

/// The mat's layout as a scene, not checked; its texts are not set yet. Empty without a layout.
/// Adds to `found` what drawing finds.
[[nodiscard]] Scene mat_scene(const Studio& studio, Diagnostics& found);

/// The places of the mat's layout, without drawing it; none when there are too many.
[[nodiscard]] std::vector<CardPlace> places_of(const Studio& studio);

/// The lowest height of capitals, H = 2 d tan(a / 2), that is read from `distance` d with
/// a = 16 minutes of arc, and the one that is comfortable, with 20 (ISO 9241-303: at least 16, 20
/// to 22 preferred for Latin letters; from memory). d from 200 to 3000 mm.
struct CapitalHeights {
  Mm least, comfortable;
};
[[nodiscard]] CapitalHeights capital_heights(Mm distance);
/// Height of capitals in type sizes: 0.714 in the house face, 0.64 to 0.73 in most others (measured
/// on faces of this project; no source).
inline constexpr double capitals_of_type = 0.7;

/// Pixels an inch beyond which the eye tells nothing apart at `distance`: one pixel covers one
/// minute of arc, the detail of normal sight (ISO 8596, visual acuity 1.0; from memory).
[[nodiscard]] double finest_ppi(Mm distance);

/// The limits of the checks for the mat of a game, which must have one: pictures need no more
/// pixels than the eye tells apart from its viewing distance, and half of that shows as steps.
[[nodiscard]] game::Limits mat_limits(const game::Game& game);

}  // namespace quoin::pieces
