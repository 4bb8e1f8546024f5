#pragma once
#include <optional>
#include <vector>

#include "fold/fold.h"
#include "fold/view.h"
#include "pieces/box/box.h"

namespace quoin::pieces {

/// A net as it stands for a picture.
struct StagedNet {
  int part = 0;  ///< of the model
  fold::Net net;
  std::vector<fold::Rigid> places;  ///< of its panels, on the stage
};

/// The deck as a block: its top card lies at z = 0 with its top left corner at the origin, the
/// others behind it.
struct StagedDeck {
  fold::Block size;
  fold::Rigid place;  ///< on the stage
};

/// What a picture of a box shows, and from where. The stage's x runs right, y down to the ground,
/// which lies at its largest y, and z away from the viewer; millimetres.
struct Stage {
  std::vector<StagedNet> nets;
  std::optional<StagedDeck> deck;
  fold::View view;
};

/// The closed box, upright, seen a little from the right and from above.
[[nodiscard]] Stage closed_stage(const Box& box);

/// The box with its deck to be seen: a carton upright with its lid and flaps swung out by 110 to
/// 120 degrees and the deck pushed up by a quarter of its height; what comes in two parts lying on
/// its back, the lid beside its base or the tray half drawn.
[[nodiscard]] Stage open_stage(const Box& box);

/// One step of the folding while it is done, 0 to the number of steps less one: nets lie with
/// their printed side down, a carton stands once its body is closed. Tuck flaps are shown before
/// they have to be bowed.
[[nodiscard]] Stage step_stage(const Box& box, int step);

}  // namespace quoin::pieces
