#pragma once
#include <optional>
#include <string>

#include "job/share/faces.h"
#include "job/share/share.h"
#include "job/share/shared_mat.h"

namespace quoin::job {

/// A paper that games are given on.
struct SharedPaper {
  const char* name;
  Size size;
  const char* where;  ///< for a person
};
inline constexpr SharedPaper shared_papers[] = {
    {"A4", {Mm{210}, Mm{297}}, "210 x 297 mm, usual in most of the world"},
    {"Letter", {Mm{215.9}, Mm{279.4}}, "8.5 x 11 in, usual in North America"}};

/// What is printed on the box in both inks, drawn once for all papers whose box is the same.
struct SharedBox {
  std::optional<pieces::Box> box;
  pack::BoxArt full_art, low_art;
  std::optional<DrawnSymbols> full, low;
};

/// The game on one paper, laid and reckoned. Stays where it is: documents refer to it.
struct Edition {
  const SharedPaper* paper = nullptr;
  Outcome outcome;                      ///< as of a run for that paper
  std::optional<sheets::Plan> changed;  ///< the cards of an earlier share that changed
  std::optional<DrawnSymbols> rules;    ///< their pages; nothing when the game has none
  SharedEdition facts;
};

/// What is the same on every paper.
struct SharedPieces {
  const SharedBox& box;
  const SharedMat& mat;
};

/// The game as it is laid for a stranger: on that paper, for a printer of which nothing is known,
/// sides turned by the printer, without what the maker pays.
[[nodiscard]] game::Game for_strangers(const game::Game& game, const SharedPaper& paper);

/// Lays the cards, those that changed, the box and the mat, draws the rules that the edition's
/// outcome has, and reckons. False, with the reasons in `found`, when the game does not go on that
/// paper; an error that `found` has before is one.
[[nodiscard]] bool lay_edition(Workshop& shop, const DrawnFaces& faces, SharedPieces pieces,
                               const pack::Changes* changes, Edition& edition, Diagnostics& found);

}  // namespace quoin::job
