#include "pieces/box/box.h"

#include <fmt/format.h>

#include <stdexcept>

#include "pieces/box/check_box.h"

namespace quoin::pieces {
namespace {

using fold::Block;

constexpr Mm usual_board{0.40};

Range board_of(const game::BoxWishes& wishes, Diagnostics& found) {
  const game::BoardWishes& board = wishes.board;
  if (const auto range =
          caliper_of(board.caliper, board.grammage, board.paper_class, "solid-bleached-board"))
    return *range;
  Diagnostic note(Id::box_board_thickness_assumed, wishes.origin,
                  "how thick the box's board is is not said, so 0.40 mm is taken");
  found.push_back(note.hint("write caliper = 0.4 under [box]"));
  return {usual_board, usual_board, usual_board};
}

Block sum(const Block& a, const Block& b) {
  return {a.width + b.width, a.height + b.height, a.depth + b.depth};
}

Block difference(const Block& a, const Block& b) {
  return {a.width - b.width, a.height - b.height, a.depth - b.depth};
}

Block to_block(const std::array<Mm, 3>& three) { return {three[0], three[1], three[2]}; }

/// The walls' distance that leaves the deck its clearance, flaps reckoned in: a first box with
/// walls far enough apart for any flap is measured, and its walls are moved by what is too much.
Block walls_for(const BoxKind& kind, const game::BoxWishes& wishes, const Deck& deck, Mm board) {
  const Block wanted = sum(thickest(deck), to_block(wishes.clearance));
  const Mm ample = board * 6 + wishes.tuck_play * 2 + Mm{2};
  const Block first = sum(wanted, {ample, ample, ample});
  const fold::Model trial = kind.draw(plan_of(wishes, first, board));
  return sum(first, difference(wanted, fold::clear_inside(trial, wanted).size));
}

}  // namespace

Fit measured(const fold::Model& model, const Block& deck) {
  return {fold::clear_inside(model, deck), fold::outside(model), fold::gaps(model),
          fold::contacts(model),           fold::grips(model),   fold::collisions(model)};
}

Checked<std::optional<Box>> make_box(const game::BoxWishes& wishes, const Contents& contents) {
  Checked<std::optional<Box>> made;
  Box box;
  box.kind = find_box_kind(wishes.kind);
  if (!box.kind)
    throw std::logic_error("the schema has a kind of box that is not drawn: " + wishes.kind);
  box.board = board_of(wishes, made.found);
  const Mm board = box.board.typical;
  for (Diagnostic& problem : contents_problems(contents, wishes, board)) {
    made.found.push_back(std::move(problem));
  }
  if (any_errors(made.found)) return made;

  Checked<Deck> deck = deck_of(contents, wishes);
  box.deck = deck.value;
  for (Diagnostic& problem : deck.found) made.found.push_back(std::move(problem));
  const Block inside =
      wishes.inside ? to_block(*wishes.inside) : walls_for(*box.kind, wishes, box.deck, board);
  box.plan = plan_of(wishes, inside, board);
  for (Diagnostic& problem : plan_problems(box.plan, *box.kind, wishes)) {
    made.found.push_back(std::move(problem));
  }
  if (any_errors(made.found)) return made;

  box.model = box.kind->draw(box.plan);
  box.fit = measured(box.model, thickest(box.deck));
  const BoxInspection inspection{box, wishes, made.found};
  check_fit(inspection);
  check_board(inspection);
  made.value = std::move(box);
  return made;
}

Contents contents_of(const game::Game& game) {
  Contents contents{0, game.card.size, game.stock};
  for (const game::Card& card : game.cards) contents.cards += card.copies;
  return contents;
}

Checked<std::optional<Box>> make_box(const game::Game& game) {
  if (!game.box) return {};
  return make_box(*game.box, contents_of(game));
}

}  // namespace quoin::pieces
