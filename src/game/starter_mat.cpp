#include "game/starter_mat.h"

#include <fmt/format.h>

#include <algorithm>

namespace quoin::game {
namespace {

constexpr Size mat{Mm{594}, Mm{420}};
constexpr Mm clearance{1.5}, edge{20}, between{4}, apart{14};

std::string place(const std::string& id, const std::string& keys, Point at) {
  return fmt::format("\n[[element]]\nid = \"{}\"\nkind = \"place\"\n{}at = [{:.1f}, {:.1f}]\n", id,
                     keys, at.x.value, at.y.value);
}

/// A row of the suits at the foot of the mat, when there is room for it below `from`.
std::string suits_row(const Game& game, Size each, Mm from) {
  const int count = static_cast<int>(game.suits.size());
  if (count == 0 || count > 60) return {};
  const Mm wide = each.width * count + between * (count - 1);
  const Mm top = mat.height - edge - each.height;
  if (wide > mat.width - edge * 2 || top < from) return {};
  std::string suits;
  for (const Suit& suit : game.suits) {
    suits += fmt::format("{}\"{}\"", suits.empty() ? "" : ", ", suit.id);
  }
  return place("suits",
               fmt::format("arrange = \"row\"\nsuits = [{}]\ngap = {:.0f}\n", suits, between.value),
               {(mat.width - wide) / 2, top});
}

}  // namespace

std::string starter_mat_layout(const Game& game) {
  const Size each = grown(Rect{{}, game.card.size}, clearance).size;
  const Mm top = std::max(edge, (mat.height - each.height) / 2);
  std::string layout =
      "# The mat. Places follow the size of the cards; `at` is the upper left corner of each.\n\n"
      "[[element]]\nid = \"ground\"\nkind = \"shape\"\ninset = \"bleed\"\nfill = \"#ece5d6\"\n";
  layout += place("draw", "arrange = \"pile\"\nlabel = \"Draw\"\n", {edge, top});
  Mm x = edge + each.width + apart;
  if (x + each.width > mat.width - edge) return layout;
  layout += place("discard", "label = \"Discard\"\n", {x, top});
  x += each.width + apart * 2;
  const int count = static_cast<int>((mat.width - edge - x + between) / (each.width + between));
  if (count >= 1) {
    layout += place("table",
                    fmt::format("arrange = \"row\"\ncount = {}\ngap = {:.0f}\nlabel = \"Table\"\n",
                                std::min(count, 7), between.value),
                    {x, top});
  }
  return layout + suits_row(game, each, top + each.height + apart);
}

}  // namespace quoin::game
