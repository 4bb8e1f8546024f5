#pragma once
#include <string>
#include <vector>

#include "guide/making.h"

namespace quoin::guide {

/// Pieces of sentences that several chapters say.

/// "Fold the lid in.": a capital at the start, a full stop at the end.
[[nodiscard]] std::string sentence(std::string words);
/// "Fold the lid in": a capital at the start.
[[nodiscard]] std::string with_capital(std::string words);
/// "a, b and c"
[[nodiscard]] std::string listed(const std::vector<std::string>& words);
/// "uncoated card, 250 g/m²", as the game says; else what is usual.
[[nodiscard]] std::string card_stock_words(const game::Game& game);
[[nodiscard]] std::string board_stock_words(const game::Game& game);
/// "long edge"
[[nodiscard]] std::string flip_edge_words(const sheets::Plan& plan);
/// How thick one card is, from the box's deck or the stock; nothing when neither says.
[[nodiscard]] std::optional<Mm> card_caliper(const Making& making);
/// "1 and 4 to 7", of whole numbers that rise.
[[nodiscard]] std::string number_ranges(const std::vector<int>& numbers);
/// Part of "Print the cards": the printer that the sheets are made for, or what is usual.
void add_printer(Chapter& chapter, const Making& making);
/// What a back may be off by before it shows, and what shows then.
struct BackRoom {
  Mm most;
  enum class Shows { nothing, white_edge, crooked_border } shows = Shows::nothing;
};
/// From the bleed that the sheets leave of the backs, less what a cut strays, and from an even
/// border round them: shifted by s, its sides are B - s and B + s, and crooked when their ratio is
/// below the evenness q, that is when s > B (1 - q) / (1 + q). At least 0.3 mm: less is not to be
/// seen on targets.
[[nodiscard]] BackRoom back_room(const Making& making);
/// "./run quoin make", as the maker types it, ready for more words.
inline constexpr const char* make_command = "./run quoin make";

}  // namespace quoin::guide
