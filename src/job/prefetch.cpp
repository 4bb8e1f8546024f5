#include "job/prefetch.h"

#include <algorithm>
#include <cmath>

#include "pieces/card/inspect.h"
#include "pieces/card/inspect_leaves.h"

namespace quoin::job {

Prefetch::Prefetch(PictureShelf& shelf)
    : shelf_(shelf), thread_([this](const std::stop_token& stop) { work(stop); }) {}

Prefetch::~Prefetch() = default;

void Prefetch::want(const Scene& scene, Use use) {
  for (const Item& item : scene.items) want(item, use, pieces::look_pixels_per_mm);
}

void Prefetch::want(const Item& item, Use use, double scale) {
  scale *= pieces::mean_scale(item.map);
  if (const auto* group = std::get_if<GroupItem>(&item.what)) {
    for (const Item& inner : group->items) want(inner, use, scale);
  }
  const auto* drawn = std::get_if<PictureItem>(&item.what);
  if (!drawn || drawn->picture->facts().is_vector()) return;
  if (!asked_.insert(drawn->picture->key()).second) return;
  const double wide = std::clamp(std::ceil(drawn->to.size.width.value * scale), 1.0, 1e6);
  {
    const std::lock_guard lock(mutex_);
    if (use == Use::look_and_file) for_looks_.push_back({drawn->picture, static_cast<int>(wide)});
    for_files_.push_back({drawn->picture, 0});
  }
  more_.notify_one();
}

void Prefetch::work(const std::stop_token& stop) {
  for (;;) {
    Wanted next;
    {
      std::unique_lock lock(mutex_);
      const auto wanted = [this] { return !for_looks_.empty() || !for_files_.empty(); };
      if (!more_.wait(lock, stop, wanted)) return;
      std::deque<Wanted>& queue = for_looks_.empty() ? for_files_ : for_looks_;
      next = std::move(queue.front());
      queue.pop_front();
    }
    if (stop.stop_requested()) return;
    if (next.at_most_wide > 0) {
      (void)shelf_.pixels(next.picture, next.at_most_wide);
    } else {
      (void)shelf_.prepared(next.picture);
    }
  }
}

}  // namespace quoin::job
