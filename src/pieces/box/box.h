#pragma once
#include <optional>

#include "fold/collision.h"
#include "fold/fold.h"
#include "fold/measure.h"
#include "pieces/box/kinds.h"
#include "pieces/box/plan.h"
#include "pieces/box/stack.h"

namespace quoin::pieces {

/// What was measured on the folded model. Nothing in here is copied from the plan.
struct Fit {
  fold::Clear clear;            ///< the room inside
  fold::Block outside;          ///< the closed box
  std::vector<fold::Gap> gaps;  ///< where edges meet
  std::vector<fold::Contact> seams;
  std::vector<fold::Grip> grips;
  std::vector<fold::Collision> collisions;
};

/// A box for a deck: what was planned, the nets and how they fold, and what came out.
struct Box {
  const BoxKind* kind = nullptr;
  Deck deck;
  Range board;  ///< thickness of the box's own board
  BoxPlan plan;
  fold::Model model;
  Fit fit;
};

/// The box for these contents, folded and measured.
///
/// The walls are set so that the room measured inside the folded box is the thickest deck plus the
/// clearance: drawn once with the walls at that distance, measured, and drawn again with them wider
/// by what the flaps took. `[box] inside` sets the walls as they are given instead.
///
/// There is no box when sizes are impossible (`box.impossible-size`, `box.caliper-exceeds-flap`). A
/// box with other errors among `found` is given for looking at; its files are not for printing.
[[nodiscard]] Checked<std::optional<Box>> make_box(const game::BoxWishes& wishes,
                                                   const Contents& contents);

/// All cards of a game.
[[nodiscard]] Contents contents_of(const game::Game& game);

/// The same for all cards of a game; nothing when it has no [box].
[[nodiscard]] Checked<std::optional<Box>> make_box(const game::Game& game);

/// Folds a plan and measures it: for plans that no deck decided.
[[nodiscard]] Fit measured(const fold::Model& model, const fold::Block& deck);

}  // namespace quoin::pieces
