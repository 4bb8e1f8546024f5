#include "media/pictures/raster_cache.h"

#include <algorithm>

#include "media/pictures/raster.h"

namespace quoin::pictures {

std::shared_ptr<RasterCache::Entry> RasterCache::entry(const std::string& key) {
  const std::lock_guard lock(mutex_);
  std::shared_ptr<Entry>& entry = entries_[key];
  if (entry == nullptr) entry = std::make_shared<Entry>();
  entry->last_asked = ++asked_;
  return entry;
}

/// Books what the picture takes now, and lets others go until all of it fits again.
void RasterCache::grew(const std::string& key, std::size_t bytes) {
  const std::lock_guard lock(mutex_);
  const auto grown = entries_.find(key);
  if (grown == entries_.end()) return;
  bytes_ += bytes - grown->second->bytes;
  grown->second->bytes = bytes;
  while (bytes_ > most_bytes_ && entries_.size() > 1) {
    auto oldest = entries_.end();
    for (auto it = entries_.begin(); it != entries_.end(); ++it) {
      if (it->first == key || it->second->bytes == 0) continue;
      if (oldest == entries_.end() || it->second->last_asked < oldest->second->last_asked) {
        oldest = it;
      }
    }
    if (oldest == entries_.end()) return;
    bytes_ -= oldest->second->bytes;
    entries_.erase(oldest);
  }
}

Result<RasterCache::RasterPtr> RasterCache::get(const std::string& key, int full_width,
                                                int at_most_wide, const Make& make) {
  const std::shared_ptr<Entry> found = entry(key);
  const std::lock_guard lock(found->mutex);
  if (found->failed) return *found->failed;
  const int width = width_for(full_width, at_most_wide);
  if (const auto known = found->by_width.find(width); known != found->by_width.end()) {
    return known->second;
  }
  Result<Raster> made = make(width);
  if (!made) {
    found->failed = made.why();
    return made.why();
  }
  const RasterPtr raster = std::make_shared<const Raster>(std::move(made).value());
  found->by_width[width] = raster;
  std::size_t bytes = 0;
  for (const auto& [each, kept] : found->by_width) {
    bytes += kept->pixels.size() * sizeof(std::uint32_t);
  }
  grew(key, bytes);
  return raster;
}

}  // namespace quoin::pictures
