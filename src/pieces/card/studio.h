#pragma once
#include <map>
#include <memory>
#include <string>

#include "game/game.h"
#include "media/colour.h"
#include "media/picture.h"
#include "media/text.h"

namespace quoin::pieces {

/// What all faces of one game share while they are drawn: its pictures, named colours, text
/// styles and inline symbols, looked up once. Refers to the game and the shelf, which must outlive
/// it. For one thread at a time.
class Studio {
 public:
  /// Opens the symbols' pictures and reads the named colours; what is wrong with them is added
  /// to `found`.
  Studio(const game::Game& game, PictureShelf& shelf, Diagnostics& found);

  [[nodiscard]] const game::Game& game() const { return game_; }
  [[nodiscard]] PictureShelf& shelf() const { return shelf_; }
  [[nodiscard]] const std::map<std::string, std::shared_ptr<const InlineSymbol>>& symbols() const {
    return symbols_;
  }
  /// A colour as a maker writes it: a name from [colours], or as `parse_colour` reads it.
  [[nodiscard]] std::optional<Colour> colour(const std::string& text) const;
  [[nodiscard]] std::vector<std::string> colour_names() const;
  /// The style's table, or null.
  [[nodiscard]] const game::Table* style(const std::string& name) const;
  [[nodiscard]] std::vector<std::string> style_names() const;

 private:
  const game::Game& game_;
  PictureShelf& shelf_;
  std::map<std::string, std::shared_ptr<const InlineSymbol>> symbols_;
  std::map<std::string, Colour> colours_;
};

}  // namespace quoin::pieces
