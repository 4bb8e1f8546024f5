#include "pieces/card/studio.h"

namespace quoin::pieces {

Studio::Studio(const game::Game& game, PictureShelf& shelf, Diagnostics& found)
    : game_(game), shelf_(shelf) {
  for (const game::Named& named : game.colours) {
    const std::string* text = named.value.text();
    const std::optional<Colour> colour = text ? parse_colour(*text) : std::nullopt;
    if (colour) {
      colours_[named.name] = *colour;
      continue;
    }
    found.push_back(Diagnostic(Id::face_not_a_colour, named.value.origin,
                               "the colour " + named.name + " is not written as a colour")
                        .hint("write it as \"#1d2b33\""));
  }
  for (const game::Symbol& symbol : game.symbols) {
    auto picture = shelf.open(symbol.picture, symbol.origin, found).or_report(found);
    if (!picture) continue;
    symbols_[symbol.name] =
        std::make_shared<const InlineSymbol>(InlineSymbol{*picture, symbol.scale, symbol.drop});
  }
}

std::optional<Colour> Studio::colour(const std::string& text) const {
  const auto named = colours_.find(text);
  return named != colours_.end() ? std::optional(named->second) : parse_colour(text);
}

std::vector<std::string> Studio::colour_names() const {
  std::vector<std::string> names;
  for (const auto& [name, colour] : colours_) names.push_back(name);
  return names;
}

const game::Table* Studio::style(const std::string& name) const {
  for (const game::Named& named : game_.styles) {
    if (named.name == name) return named.value.table();
  }
  return nullptr;
}

std::vector<std::string> Studio::style_names() const {
  std::vector<std::string> names;
  for (const game::Named& named : game_.styles) names.push_back(named.name);
  return names;
}

}  // namespace quoin::pieces
