#include "guide/chapters/wording.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>

#include "pack/card_files.h"
#include "pieces/box/stack.h"

namespace quoin::guide {

std::string with_capital(std::string words) {
  if (words.empty()) return words;
  words.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(words.front())));
  return words;
}

std::string sentence(std::string words) {
  if (words.empty()) return words;
  words = with_capital(std::move(words));
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

std::string number_ranges(const std::vector<int>& numbers) {
  std::vector<std::string> ranges;
  for (std::size_t i = 0; i < numbers.size();) {
    std::size_t last = i;
    while (last + 1 < numbers.size() && numbers[last + 1] == numbers[last] + 1) ++last;
    if (last < i + 2) {
      for (std::size_t at = i; at <= last; ++at) ranges.push_back(fmt::format("{}", numbers[at]));
    } else {
      ranges.push_back(fmt::format("{} to {}", numbers[i], numbers[last]));
    }
    i = last + 1;
  }
  return listed(ranges);
}

BackRoom back_room(const Making& making) {
  constexpr Mm least{0.3}, never_seen{20};
  const press::ErrorBudget& cuts = making.tolerances.front.worst;
  const Mm strays =
      std::max(std::max(cuts.cut_left, cuts.cut_right), std::max(cuts.cut_top, cuts.cut_bottom)) *
      2;
  const double q = making.game.making.cutting.evenness;
  BackRoom room{never_seen, BackRoom::Shows::nothing};
  const std::vector<making::FaceTolerance>& faces = making.tolerances.faces;
  for (std::size_t i = making.fronts.size(); i < faces.size(); ++i) {
    const press::Margins& margins = faces[i].margins;
    const Mm bleed = margins.bleed - strays;
    const Mm border = margins.border * ((1 - q) / (1 + q));
    if (bleed < room.most) room = {bleed, BackRoom::Shows::white_edge};
    if (margins.border > Mm{} && border < room.most) {
      room = {border, BackRoom::Shows::crooked_border};
    }
  }
  room.most = std::max(least, Mm{std::floor(room.most.value * 10) / 10});
  return room;
}

int usual_spares(int sheets) { return std::max(2, (sheets + 9) / 10); }

}  // namespace quoin::guide
