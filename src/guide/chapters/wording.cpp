#include "guide/chapters/wording.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "pack/card_files.h"
#include "pieces/box/stack.h"

namespace quoin::guide {

std::string sentence(std::string words) {
  if (words.empty()) return words;
  words.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(words.front())));
  if (words.back() != '.') words += '.';
  return words;
}

std::string listed(const std::vector<std::string>& words) {
  std::string list;
  for (std::size_t i = 0; i < words.size(); ++i) {
    if (i > 0) list += i + 1 == words.size() ? " and " : ", ";
    list += words[i];
  }
  return list;
}

std::string card_stock_words(const game::Game& game) {
  const std::string words = as_words(pack::stock_words(game.stock));
  // Common practice, no source.
  return words.empty() ? "card of 250 to 300 g/m²" : words;
}

std::string board_stock_words(const game::Game& game) {
  const game::BoardWishes& board = game.box->board;
  std::string kind = board.paper_class.empty() ? "board" : board.paper_class;
  std::replace(kind.begin(), kind.end(), '-', ' ');
  if (board.grammage) return fmt::format("{}, {} g/m²", kind, *board.grammage);
  if (board.caliper) return fmt::format("{}, {:.2f} mm thick", kind, board.caliper->value);
  return kind == "board" ? "board of 250 to 400 g/m²" : kind;
}

std::string flip_edge_words(const sheets::Plan& plan) {
  return plan.wishes.flip == game::FlipEdge::long_edge ? "long edge" : "short edge";
}

std::optional<Mm> card_caliper(const Making& making) {
  if (making.box.box != nullptr) return making.box.box->deck.card.typical;
  const game::Stock& stock = making.game.stock;
  const auto range =
      pieces::caliper_of(stock.caliper, stock.grammage, stock.paper_class, "uncoated-card");
  if (!range) return std::nullopt;
  return range->typical;
}

int usual_spares(int sheets) { return std::max(2, (sheets + 9) / 10); }

}  // namespace quoin::guide
