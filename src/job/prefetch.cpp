#include "job/prefetch.h"

namespace quoin::job {

Prefetch::Prefetch(PictureShelf& shelf)
    : shelf_(shelf), thread_([this](const std::stop_token& stop) { work(stop); }) {}

Prefetch::~Prefetch() = default;

void Prefetch::want(const Scene& scene) {
  for (const Item& item : scene.items) want(item);
}

void Prefetch::want(const Item& item) {
  if (const auto* group = std::get_if<GroupItem>(&item.what)) {
    for (const Item& inner : group->items) want(inner);
  }
  const auto* drawn = std::get_if<PictureItem>(&item.what);
  if (!drawn || drawn->picture->facts().is_vector()) return;
  if (!asked_.insert(drawn->picture->key()).second) return;
  {
    const std::lock_guard lock(mutex_);
    waiting_.push_back(drawn->picture);
  }
  more_.notify_one();
}

void Prefetch::work(const std::stop_token& stop) {
  for (;;) {
    PicturePtr next;
    {
      std::unique_lock lock(mutex_);
      if (!more_.wait(lock, stop, [this] { return !waiting_.empty(); })) return;
      next = std::move(waiting_.front());
      waiting_.pop_front();
    }
    if (stop.stop_requested()) return;
    if (!shelf_.prepared(next)) continue;
  }
}

}  // namespace quoin::job
