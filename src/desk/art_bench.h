#pragma once
#include <condition_variable>
#include <cstdint>
#include <deque>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "desk/session.h"
#include "job/pictures/list_pictures.h"
#include "job/pictures/new_pictures.h"

namespace quoin::desk {

/// What was made of a picture and not yet taken in.
struct MadeOfPicture {
  std::string file, key;  ///< of the picture
  job::NewPictures made;
};

/// The game's pictures at one moment.
struct ArtList {
  job::ShownPictures shown;
  job::PictureList list;
  /// Null: it is none of them.
  [[nodiscard]] const job::ListedPicture* find(const std::string& file) const;
};

/// Where the game's pictures are worked on: keeps what was made of them until it is taken in or
/// newer things take its place, sees to it that not more is going on at once than the machine has
/// cores for, and lists the pictures of a moment once. From any thread.
class ArtBench {
 public:
  ArtBench();

  /// The name under which it is found again. The last 32 are kept, or as many as are 64 MB, always
  /// the newest.
  [[nodiscard]] std::string keep(MadeOfPicture made);
  /// Null: it was never here or is gone.
  [[nodiscard]] std::shared_ptr<const MadeOfPicture> find(const std::string& name) const;

  /// Cards that were found in the picture with that key; remembered for the last 16 pictures.
  void remember(const std::string& key, std::vector<job::PicturedCard> cards);
  [[nodiscard]] std::vector<job::PicturedCard> cards_in(const std::string& key) const;

  /// The pictures of that moment. Several who ask at once wait for one search.
  [[nodiscard]] std::shared_ptr<const ArtList> list(const std::shared_ptr<const Snapshot>& shown);

  /// A place at the bench, given back when it goes.
  class Turn {
   public:
    explicit Turn(ArtBench& bench) : bench_(&bench) {}
    Turn(Turn&& other) noexcept : bench_(std::exchange(other.bench_, nullptr)) {}
    Turn& operator=(Turn&&) = delete;
    Turn(const Turn&) = delete;
    Turn& operator=(const Turn&) = delete;
    ~Turn();

   private:
    ArtBench* bench_;
  };
  /// Waits for a place. Nothing when the same work ("redraw art/crab.png") was asked for anew
  /// before one was free: nobody waits for this one any more.
  [[nodiscard]] std::optional<Turn> turn(const std::string& work);

  /// Names of new files are found and taken by one at a time.
  [[nodiscard]] std::unique_lock<std::mutex> alone() { return std::unique_lock(alone_); }

 private:
  struct Kept {
    std::string name;
    std::shared_ptr<const MadeOfPicture> made;
    std::size_t bytes = 0;
  };
  const std::string run_;  // so that no name of an earlier run is met again
  mutable std::mutex mutex_;
  std::deque<Kept> kept_;  // the oldest first
  std::size_t bytes_ = 0;
  std::uint64_t next_ = 1;
  std::deque<std::pair<std::string, std::vector<job::PicturedCard>>> cards_;

  std::mutex turns_mutex_;
  std::condition_variable turns_;
  int at_work_ = 0;
  std::map<std::string, std::uint64_t> newest_;  // of each work, by its number

  std::mutex list_mutex_, alone_;
  std::shared_ptr<const Snapshot> listed_;
  std::shared_ptr<const ArtList> list_;
};

}  // namespace quoin::desk
