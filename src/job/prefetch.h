#pragma once
#include <condition_variable>
#include <deque>
#include <mutex>
#include <set>
#include <string>
#include <thread>

#include "media/picture.h"
#include "scene/scene.h"

namespace quoin::job {

/// Reads the pixels of pictures on a thread of its own while the faces are drawn, for the checks
/// and for the PDF: they are most of the work of a small deck. What fails here fails again, and is
/// reported, when a face is drawn or the file is written.
class Prefetch {
 public:
  explicit Prefetch(PictureShelf& shelf);
  /// Stops after the picture in hand.
  ~Prefetch();
  Prefetch(const Prefetch&) = delete;
  Prefetch& operator=(const Prefetch&) = delete;

  /// What a picture will be wanted for: the PDF alone, or first for the checks to look at.
  enum class Use { file, look_and_file };

  /// Asks for every raster picture of the scene.
  void want(const Scene& scene, Use use);

 private:
  struct Wanted {
    PicturePtr picture;
    int at_most_wide = 0;  ///< for the look; 0: for the file
  };
  void want(const Item& item, Use use, double scale);
  void work(const std::stop_token& stop);

  PictureShelf& shelf_;
  std::set<std::string> asked_;
  std::mutex mutex_;
  std::condition_variable_any more_;
  std::deque<Wanted> for_looks_, for_files_;  // looks first: faces wait for them
  std::jthread thread_;                       // last: ends before the rest goes
};

}  // namespace quoin::job
