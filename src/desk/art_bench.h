#pragma once
#include <cstdint>
#include <deque>
#include <memory>
#include <mutex>
#include <string>
#include <vector>

#include "base/world.h"
#include "job/pictures/list_pictures.h"
#include "job/pictures/new_pictures.h"

namespace quoin::desk {

/// What was made of a picture and not yet taken in.
struct MadeOfPicture {
  std::string file, stamp;  ///< of the picture
  std::vector<job::NewPicture> pictures;
  Bytes difference;  ///< PNG; only of a drawing
};

/// Keeps what was made of the game's pictures until it is taken in, or newer things take its place,
/// and the list of the pictures as long as nothing changed. From any thread.
class ArtBench {
 public:
  /// The name under which it is found again. The last 32 are kept, or as many as are 64 MB, always
  /// the newest.
  [[nodiscard]] std::string keep(MadeOfPicture made);
  /// Null: it was never here or is gone.
  [[nodiscard]] std::shared_ptr<const MadeOfPicture> find(const std::string& name) const;

  /// The pictures of that moment of the game. Several who ask at once wait for one drawing.
  [[nodiscard]] std::shared_ptr<const job::PictureList> list(
      const std::shared_ptr<const World>& world);

 private:
  struct Kept {
    std::string name;
    std::shared_ptr<const MadeOfPicture> made;
    std::size_t bytes = 0;
  };
  mutable std::mutex mutex_;
  std::deque<Kept> kept_;  // the oldest first
  std::size_t bytes_ = 0;
  std::uint64_t next_ = 1;

  std::mutex list_mutex_;
  std::shared_ptr<const World> listed_;
  std::shared_ptr<const job::PictureList> list_;
};

}  // namespace quoin::desk
