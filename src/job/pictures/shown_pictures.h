#pragma once
#include <map>
#include <optional>
#include <string>
#include <vector>

#include "job/job.h"
#include "job/workshop.h"
#include "pieces/card/picture_uses.h"

namespace quoin::job {

/// A picture as the pieces of a game show it.
struct ShownPicture {
  PicturePtr picture;               ///< null: seen only inside the drawings of `within`
  std::vector<std::string> pieces;  ///< "W-07", "back of main", "box", "mat", "rules", in order
  std::vector<std::string> within;  ///< paths of drawings that show it inside them
  /// Where it falls furthest short of what is wanted there; nothing for vectors.
  std::optional<pieces::PictureUse> coarsest;
  double good_ppi = 300, poor_ppi = 200;  ///< wanted there
};
/// By their paths in the game folder.
using ShownPictures = std::map<std::string, ShownPicture>;

/// Looks for pictures in scenes that were drawn. Refers to the world.
class PictureFinder {
 public:
  explicit PictureFinder(const World& world) : world_(world) {}

  /// All pictures in a scene. Its texts need not be set: those with symbols of pixels are set here,
  /// with `typesetter`, since how large a symbol prints follows from its line.
  void see(const Scene& scene, const std::string& piece, const game::Limits& limits,
           Typesetter& typesetter);

  /// All in the box, the mat and the rules of an outcome.
  void see_other_pieces(const Outcome& outcome, Typesetter& typesetter);

  ShownPictures shown;

 private:
  const World& world_;
};

/// Draws every face, the box, the mat and the rules of the game in `outcome` once and looks for
/// pictures on them, cards without copies included. `outcome` gets the pieces that were drawn;
/// errors of drawing are added to its findings. Stops early, with `pack.cancelled`, when the
/// watcher says so.
[[nodiscard]] ShownPictures draw_and_find(const World& world, Workshop& shop, Outcome& outcome,
                                          Watcher& watcher);

/// The indices of all cards that have a layout.
[[nodiscard]] std::vector<int> cards_with_faces(const game::Game& game);

}  // namespace quoin::job
