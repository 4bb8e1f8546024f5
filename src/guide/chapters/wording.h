#pragma once
#include <string>
#include <vector>

#include "guide/making.h"

namespace quoin::guide {

/// Pieces of sentences that several chapters say.

/// "Fold the lid in.": a capital at the start, a full stop at the end.
[[nodiscard]] std::string sentence(std::string words);
/// "a, b and c"
[[nodiscard]] std::string listed(const std::vector<std::string>& words);
/// "uncoated card, 250 g/m²", as the game says; else what is usual.
[[nodiscard]] std::string card_stock_words(const game::Game& game);
[[nodiscard]] std::string board_stock_words(const game::Game& game);
/// "long edge"
[[nodiscard]] std::string flip_edge_words(const sheets::Plan& plan);
/// How thick one card is, from the box's deck or the stock; nothing when neither says.
[[nodiscard]] std::optional<Mm> card_caliper(const Making& making);
/// "./run quoin make", as the maker types it, ready for more words.
inline constexpr const char* make_command = "./run quoin make";

}  // namespace quoin::guide
