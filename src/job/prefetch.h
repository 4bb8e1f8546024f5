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

/// Prepares pictures for the PDF on a thread of its own while the faces are drawn: preparing is
/// most of the work of a small deck. What fails here fails again, and is reported, when the file
/// is written.
class Prefetch {
 public:
  explicit Prefetch(PictureShelf& shelf);
  /// Stops after the picture in hand.
  ~Prefetch();
  Prefetch(const Prefetch&) = delete;
  Prefetch& operator=(const Prefetch&) = delete;

  /// Asks for every raster picture of the scene.
  void want(const Scene& scene);

 private:
  void want(const Item& item);
  void work(const std::stop_token& stop);

  PictureShelf& shelf_;
  std::set<std::string> asked_;
  std::mutex mutex_;
  std::condition_variable_any more_;
  std::deque<PicturePtr> waiting_;
  std::jthread thread_;  // last: ends before the rest goes
};

}  // namespace quoin::job
