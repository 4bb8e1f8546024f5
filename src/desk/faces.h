#pragma once
#include <map>
#include <memory>
#include <string>
#include <unordered_map>
#include <vector>

#include "base/world.h"
#include "desk/looks.h"
#include "game/game.h"
#include "media/picture.h"
#include "media/text.h"
#include "scene/scene.h"

namespace quoin::desk {

/// What faces are drawn with: pictures that are opened, and fonts. Shared by all moments of the
/// game between which no picture and no font changed.
struct Materials {
  std::string name;  ///< of the files it was made from
  std::shared_ptr<const World> world;
  std::shared_ptr<PictureShelf> shelf;
  std::vector<std::string> font_files;
  std::shared_ptr<const std::vector<FontFile>> fonts;
  std::string fonts_name;  ///< of their bytes
};

/// One distinct drawing of the game: a front, or a back that several cards share.
struct Face {
  std::string key;    ///< "cards/W-07", "backs/main"
  std::string piece;  ///< "W-07", "back of main"
  int card = 0;       ///< the first that has it
  bool is_back = false;
  std::string stamp;                   ///< changes when its looks do
  std::shared_ptr<const Scene> scene;  ///< texts not set yet; up to the bleed
};

/// All faces of a game at one moment.
struct Faces {
  std::vector<Face> all;
  std::vector<int> front_of, back_of;  ///< of each card, among `all`, or -1
  [[nodiscard]] const Face* find(std::string_view key) const;
};

/// Composes the faces of a game again and again, and only those anew whose row or layout changed.
/// For one thread at a time.
class FaceMaker {
 public:
  /// `texts` names the game's files but for the card list. Cards without copies are drawn too.
  [[nodiscard]] Faces compose(const game::Game& game, const Materials& materials,
                              const std::string& texts);

 private:
  struct Composed {
    std::shared_ptr<const Scene> scene;
    std::string stamp;
  };
  std::string made_for_;  // materials and texts
  std::string looks_for_;
  std::unordered_map<std::string, Composed> known_;
  Looks looks_;
};

/// Materials for a game; those given when nothing changed since.
[[nodiscard]] std::shared_ptr<const Materials> materials_for(
    const game::Game& game, const std::string& folder, const std::string& name,
    std::shared_ptr<const Materials> earlier);

}  // namespace quoin::desk
