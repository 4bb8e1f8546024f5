#pragma once
#include "job/trace/trace_pictures.h"

namespace quoin::job {

/// Which coarse pictures of a game are to be redrawn for good.
struct AcceptTraces {
  enum class Which { none, good, all, named } which = Which::none;
  std::vector<std::string> names;  ///< paths in the game folder
};

/// A picture of pixels that prints below the resolution that the game asks for.
struct CoarsePicture {
  double ppi = 0;                   ///< where it prints coarsest
  std::vector<std::string> pieces;  ///< that show it
  TracedPicture traced;             ///< paths in the game folder; `written` when accepted
  bool accepted = false;
};

struct GameTraced {
  double good_ppi = 300;  ///< what the game asks for
  std::vector<CoarsePicture> pictures;
  int changes = 0;    ///< values changed in the maker's files, one step to take back
  Diagnostics found;  ///< all of it, in order
};

/// Finds every picture of cards, backs, box, mat and rules that prints too coarse, redraws it and
/// judges it. What is accepted is written as SVG beside its original, and the lists and layouts
/// then name the drawing, as one edit that can be taken back; originals stay. Pictures that are
/// judged better kept, or that fail, are only accepted by name.
///
/// Beside what redraw_file finds: `trace.file-there`, `trace.name-composed`, `trace.kept-as-it-is`
/// for a name that is no coarse picture, what the Editor finds, and errors of reading the game.
[[nodiscard]] GameTraced trace_game(const std::string& folder, const trace::TraceWishes& wishes,
                                    const AcceptTraces& accept, Watcher& watcher);

}  // namespace quoin::job
