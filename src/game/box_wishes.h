#pragma once
#include <array>
#include <map>
#include <optional>
#include <string>
#include <string_view>

#include "base/origin.h"
#include "base/units.h"

namespace quoin::game {

/// Whether the two tuck flaps of a carton hinge on opposite panels or on the same one.
enum class Ends { reverse, straight };
/// Whether slits at the tuck crease catch the dust flaps.
enum class Locks { slits, none };

/// Whether a carton's or a sleeve's net is one piece of board, or two with a joining flap.
/// `automatic`: two when one is too large for the game's paper and two are not.
enum class NetParts { automatic, one, two };
/// On which side of a sheet for the maker's own printer the lines of a net are.
enum class NetLines { front, back };

/// A pile that the maker measured: so many cards are so high.
struct MeasuredPile {
  int cards = 0;
  Mm height;
};

/// Board as it is bought: what is not given is empty.
struct BoardWishes {
  std::string paper_class;  ///< a word of the schema, "" when not given
  std::optional<double> grammage;
  std::optional<Mm> caliper;
};

/// What [box] says. What is not given is empty and follows from the deck; lengths are width,
/// height, depth of the deck as it lies in the box: width and height of a card, then through the
/// pile.
struct BoxWishes {
  std::string kind = "tuck";
  Ends ends = Ends::reverse;
  Locks locks = Locks::slits;
  NetParts parts = NetParts::automatic;
  NetLines lines = NetLines::front;
  BoardWishes board;
  std::optional<std::array<Mm, 3>> inside;
  std::array<Mm, 3> clearance{Mm{0.6}, Mm{1}, Mm{0.6}};
  Mm slack{3};
  Mm glue_flap{12};
  std::optional<Mm> tuck, dust_flap, notch, corner, lid_height;
  Mm tuck_play{0.3};  ///< how much shorter the lid is than it could be
  Mm fit{0.3};        ///< air on each side between parts that slide into each other
  std::optional<MeasuredPile> pile;
  std::optional<std::array<Mm, 3>> sleeves;  ///< width, height, and what a sleeve adds to a card
  Mm leaflet;
  std::string layout;       ///< file of what is printed on the box, "" for nothing
  int art = -1;             ///< index into Game::layouts; -1: nothing is printed
  std::optional<Mm> bleed;  ///< how far ink reaches past the cuts; the cards' when not given
  Origin origin;            ///< of [box]
  std::map<std::string, Origin, std::less<>> places;  ///< of the keys that were given

  /// Of the key's value, or of [box] when the key was not given.
  [[nodiscard]] Origin place(std::string_view key) const {
    const auto found = places.find(key);
    return found == places.end() ? origin : found->second;
  }
};

}  // namespace quoin::game
