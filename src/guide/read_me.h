#pragma once
#include <string>
#include <vector>

#include "formats/document.h"
#include "guide/making.h"

namespace quoin::guide {

/// What "Read me first" tells beside what a guide knows. File names are short ones.
struct ReadMe {
  std::string cards_full, cards_low, box_full, box_low, guide;  ///< "": there is none
  std::string rules, mat;                                       ///< "": there are none
  std::string ink_words;  ///< "the cards take 30 % of the ink"
  Scene low_ink_face;     ///< the first of the shown faces in low ink, texts set
  std::string since;      ///< the earlier version
  std::vector<std::string> changes;
  std::string changed_cards;  ///< the file of those alone, "": there is none
};

/// One page for somebody who was given the files and has nobody to ask: which file, which settings,
/// a true bar of 100 mm to measure, which way the sheet turns, what paper, in which order. For the
/// paper of the plan. Texts are set, by the typesetter given.
[[nodiscard]] Document read_me(const Making& making, const ReadMe& facts, Typesetter& typesetter);

/// Who made what, on as many pages as it takes.
[[nodiscard]] Document credits_document(const game::Game& game,
                                        const std::vector<std::string>& lines, Size page,
                                        Typesetter& typesetter);

/// The first of the shown faces in full colour and in low ink, side by side.
[[nodiscard]] Figure two_inks(const Making& making, const Scene& low_ink);

}  // namespace quoin::guide
