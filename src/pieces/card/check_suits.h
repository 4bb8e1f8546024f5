#pragma once
#include <cstdint>
#include <map>
#include <string>
#include <vector>

#include "pieces/card/inspect.h"

namespace quoin::pieces {

/// Gathers what colours the cards of each suit have, to know the main colour of suits that
/// declare none.
class SuitColours {
 public:
  /// Counts one front in. Cards without a suit ("") are let pass.
  void add(const std::string& suit, const FaceLook& look);

  /// The most weighty hue of each suit among what its cards do not share with all other suits.
  /// Suits that are all grey have none.
  [[nodiscard]] std::map<std::string, Colour> main_colours() const;

 private:
  /// How many pixels have each colour of 32 x 32 x 32.
  std::map<std::string, std::vector<std::uint32_t>> seen_;
};

/// A suit as players see it.
struct SuitLook {
  std::string name;
  Origin origin;
  Colour colour;
  std::string icon;  ///< its picture, "" for none
  enum class Source { declared, measured } source = Source::declared;
};

/// What else the layouts print that tells suits apart.
struct SuitCues {
  enum class Printed { no, yes };
  Printed names = Printed::no;  ///< "{suit.name}" stands in a layout
  Printed icons = Printed::no;  ///< "{suit.icon}" stands in a layout
};
[[nodiscard]] SuitCues suit_cues(const game::Game& game);

/// The suits that cards use, in the game's order, with the colours they declare (`declared`,
/// already read: names of [colours] looked up) or else those measured. Suits without either are
/// left out.
[[nodiscard]] std::vector<SuitLook> suit_looks(const game::Game& game,
                                               const std::map<std::string, Colour>& declared,
                                               const std::map<std::string, Colour>& measured);

/// `suits.look-alike` for each pair that somebody cannot tell apart: CIEDE2000 of their colours,
/// as they are and as seen with each of three colour-vision deficiencies, under
/// `limits.suit_difference`. A note only when icons or names tell them apart as well. The hint
/// names the smallest change of one of the two that is safe beside all suits, where there is one.
[[nodiscard]] Diagnostics check_suits(const std::vector<SuitLook>& suits, SuitCues cues,
                                      const game::Limits& limits);

}  // namespace quoin::pieces
