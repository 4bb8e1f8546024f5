#pragma once
#include <deque>

#include "job/prefetch.h"
#include "job/workshop.h"

namespace quoin::job {

/// Composes faces some way ahead of their drawing, so that their pictures are being read
/// meanwhile.
class Ahead {
 public:
  explicit Ahead(Workshop& shop) : shop_(shop), prefetch_(shop.shelf()) {}

  /// The next drawing, composed.
  [[nodiscard]] Scene next() {
    while (composed_ < shop_.drawings().size() && waiting_.size() < how_far) {
      const Scene& scene = waiting_.emplace_back(shop_.compose(composed_));
      prefetch_.want(scene, shop_.must_look(composed_++, scene) ? Prefetch::Use::look_and_file
                                                                : Prefetch::Use::file);
    }
    Scene scene = std::move(waiting_.front());
    waiting_.pop_front();
    return scene;
  }

 private:
  static constexpr std::size_t how_far = 24;

  Workshop& shop_;
  Prefetch prefetch_;
  std::deque<Scene> waiting_;
  std::size_t composed_ = 0;
};

}  // namespace quoin::job
