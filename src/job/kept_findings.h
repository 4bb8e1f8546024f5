#pragma once
#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "base/diagnostic.h"
#include "base/world.h"
#include "game/game.h"
#include "media/picture.h"
#include "pieces/card/measure_face.h"
#include "scene/scene.h"

namespace quoin::job {

/// A game folder that remembers what was read from it: everything that bears on all cards alike.
class WitnessedWorld : public World {
 public:
  explicit WitnessedWorld(const World& world) : world_(world) {}

  [[nodiscard]] ReadAnswer read(std::string_view path, std::size_t limit) const override;
  [[nodiscard]] std::vector<std::string> files_below(std::string_view folder) const override;

  /// A hash of all that was read up to now, but for the card list and the list of sources.
  [[nodiscard]] std::string hash() const;

 private:
  const World& world_;
  mutable std::map<std::string, std::string, std::less<>> hashes_;
};

/// What the checks said of one face, and what the run remembers of how it looks.
struct FaceFindings {
  Diagnostics found;
  std::optional<std::uint32_t> edge;  ///< as `pieces::edge_colour` gives it
  pieces::FaceMeasure measure;
};

/// The findings of faces that did not change since an earlier run of the same build: looking at a
/// face is most of the work on it. Kept in the cache under everything that they follow from: the
/// files of the game but for the card list, and for each face its row and its pictures.
class KeptFindings {
 public:
  /// `game_hash` is of WitnessedWorld. Without a cache nothing is kept.
  KeptFindings(ImageCache* cache, const std::string& game_hash);

  /// The name of a face, of everything that its looks follow from: `side` tells fronts from backs,
  /// `scene` which pictures it shows. "" without a cache.
  [[nodiscard]] std::string name(std::string_view side, const game::Game& game,
                                 const game::Card& card, const Scene& scene);
  [[nodiscard]] const FaceFindings* find(const std::string& name);
  void keep(const std::string& name, FaceFindings findings);

  /// Puts what this run met into the cache, if there is anything new. Faces not met are kept for
  /// later runs, up to as many as were met and a thousand.
  void save() const;

 private:
  const std::string& picture_hash(const Picture& picture);

  ImageCache* cache_;
  std::string file_;
  std::map<std::string, FaceFindings> known_;  // of earlier runs
  std::map<std::string, FaceFindings> met_;    // in this run, not known before
  std::set<std::string> used_;                 // known and met again
  std::map<const Picture*, std::string> pictures_;
};

}  // namespace quoin::job
