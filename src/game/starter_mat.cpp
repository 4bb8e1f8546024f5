#include "game/starter_mat.h"

#include <fmt/format.h>

#include <algorithm>

namespace quoin::game {
namespace {

constexpr Size mat{Mm{594}, Mm{420}};
constexpr Mm clearance{1.5}, edge{20}, between{4}, apart{14}, rows_apart{40};

std::string place(const std::string& id, const std::string& keys, Point at) {
  return fmt::format("\n[[element]]\nid = \"{}\"\nkind = \"place\"\n{}at = [{:.1f}, {:.1f}]\n", id,
                     keys, at.x.value, at.y.value);
}

/// How many places of a row go into that width.
int places_in(Mm width, Size each) {
  return std::max(0, static_cast<int>((width + between) / (each.width + between)));
}
Mm row_width(int count, Size each) { return each.width * count + between * (count - 1); }

/// Whether the suits have room for a row of their own below another one.
bool has_suits_row(const Game& game, Size each) {
  const int count = static_cast<int>(game.suits.size());
  return count > 0 && count <= places_in(mat.width - edge * 2, each) &&
         each.height * 2 + rows_apart <= mat.height - edge * 2;
}

std::string suits_row(const Game& game, Size each, Mm top) {
  std::string suits;
  for (const Suit& suit : game.suits) {
    suits += fmt::format("{}\"{}\"", suits.empty() ? "" : ", ", suit.id);
  }
  const Mm wide = row_width(static_cast<int>(game.suits.size()), each);
  return place("suits",
               fmt::format("arrange = \"row\"\nsuits = [{}]\ngap = {:.0f}\n", suits, between.value),
               {(mat.width - wide) / 2, top});
}

}  // namespace

std::string starter_mat_layout(const Game& game) {
  const Size each = grown(Rect{{}, game.card.size}, clearance).size;
  const bool has_suits = has_suits_row(game, each);
  const Mm high = has_suits ? each.height * 2 + rows_apart : each.height;
  const Mm top = std::max(edge, (mat.height - high) / 2);
  std::string layout =
      "# The mat. Places follow the size of the cards; `at` is the upper left corner of each.\n\n"
      "[[element]]\nid = \"ground\"\nkind = \"shape\"\ninset = \"bleed\"\nfill = \"#ece5d6\"\n";
  // A pile, a single place, and a row with what is left of the width, all in its middle.
  const Mm piles = each.width * 2 + apart * 3;
  const int count = std::min(7, places_in(mat.width - edge * 2 - piles, each));
  const Mm wide = count > 0 ? piles + row_width(count, each) : each.width * 2 + apart;
  Mm x = std::max(edge, (mat.width - wide) / 2);
  layout += place("draw", "arrange = \"pile\"\nlabel = \"Draw\"\n", {x, top});
  x += each.width + apart;
  if (x + each.width > mat.width - edge) return layout;
  layout += place("discard", "label = \"Discard\"\n", {x, top});
  x += each.width + apart * 2;
  if (count > 0) {
    layout += place("table",
                    fmt::format("arrange = \"row\"\ncount = {}\ngap = {:.0f}\nlabel = \"Table\"\n",
                                count, between.value),
                    {x, top});
  }
  if (has_suits) layout += suits_row(game, each, top + each.height + rows_apart);
  return layout;
}

}  // namespace quoin::game
