#include <fmt/format.h>

#include "guide/chapters/wording.h"
#include "guide/figures/figures.h"
#include "sheets/printable.h"
#include "sheets/wording.h"

namespace quoin::guide {
namespace {

std::string sheets_fact(const Making& making) {
  const sheets::Plan& plan = making.plan;
  std::string words = fmt::format("{} of {}", sheets::counted(making.totals.sheets, "sheet"),
                                  as_words(plan.wishes.paper_name));
  switch (plan.wishes.backs) {
    case game::BackPrinting::printer:
      return words +
             fmt::format(", printed on both sides, flipped on the {}", flip_edge_words(plan));
    case game::BackPrinting::by_hand:
      return words + fmt::format(", fronts first, then turned on the {} for the backs",
                                 flip_edge_words(plan));
    case game::BackPrinting::fold:
      return words + ", printed on one side, folded and glued";
    case game::BackPrinting::none:
      break;
  }
  return words + ", printed on one side";
}

std::string box_fact(const BoxMade& made) {
  const fold::Block& size = made.box->fit.outside;
  const int count = made.sheets->count();
  return fmt::format("{}, {:.0f} x {:.0f} x {:.0f} mm outside, from {} of board",
                     made.box->kind->title, size.width.value, size.height.value, size.depth.value,
                     sheets::counted(count, "sheet"));
}

std::string mat_fact(const Making& making) {
  std::string words = fmt::format("mat of {}", sheets::millimetres(making.mat.mat->plan.size));
  if (making.mat.tiling != nullptr) {
    words += fmt::format(
        ", from {}", sheets::counted(static_cast<int>(making.mat.tiling->tiles.size()), "sheet"));
  }
  return words;
}

}  // namespace

Cover cover_of(const Making& making) {
  const game::Game& game = making.game;
  Cover cover;
  cover.title = game.title;
  cover.subtitle = game.subtitle;
  std::vector<std::string> pieces{sheets::counted(making.totals.pieces, "card")};
  if (making.box.box != nullptr) {
    pieces.push_back(making.decks > 1 ? sheets::counted(making.decks, "box")
                                      : fmt::format("a {}", making.box.box->kind->title));
  }
  if (making.mat.mat != nullptr) pieces.push_back("a mat");
  cover.what = fmt::format("How to make it: {}", listed(pieces));
  cover.picture = finished_pieces(making);
  cover.facts.push_back(fmt::format("{} of {}", sheets::counted(making.totals.pieces, "card"),
                                    sheets::millimetres(game.card.size)));
  cover.facts.push_back(sentence(sheets_fact(making)));
  if (making.box.box != nullptr) cover.facts.push_back(sentence(box_fact(making.box)));
  if (making.mat.mat != nullptr) cover.facts.push_back(sentence(mat_fact(making)));
  std::string made_by = as_words(game.author);
  if (!game.version.empty()) {
    made_by += fmt::format("{}version {}", made_by.empty() ? "" : ", ", as_words(game.version));
  }
  if (!game.licence.empty()) {
    made_by += fmt::format("{}licence {}", made_by.empty() ? "" : ", ", as_words(game.licence));
  }
  if (!made_by.empty()) cover.facts.push_back(made_by);
  if (!game.website.empty()) cover.facts.push_back(as_words(game.website));
  return cover;
}

}  // namespace quoin::guide
