#pragma once
#include <string>
#include <vector>

#include "pieces/box/box_view.h"
#include "rules/form.h"

namespace quoin::rules {

/// One step of the folding, for a maker: words and a picture.
struct FoldingStep {
  std::string words;  ///< a sentence without full stop, lower case
  pieces::BoxPicture picture;
};

/// How the form is folded: what is done before (creasing, the slit), each step of the model while
/// it is done, and the folded rules. Pages are shown by their numbers. Empty for a flat sheet.
[[nodiscard]] std::vector<FoldingStep> folding_steps(const Form& form, Typesetter& typesetter);

/// The pages in the order in which a reader of the folded model comes to them, and which way up:
/// counted from the side that lies towards the reader. For each face of paper the number of its
/// page, from 0, or -1 for a blank one. Of faces at one depth, which are those of two panels back
/// to back, the one that looks at the reader comes first.
struct ReadPage {
  int page = -1;
  double upright = 0;  ///< 1: its top is up when the leaf is turned like that of a book; -1: down
};
[[nodiscard]] std::vector<ReadPage> read_folded(const Form& form);

}  // namespace quoin::rules
