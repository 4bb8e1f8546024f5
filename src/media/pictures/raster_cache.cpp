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

/// Decodes unless that was done, then halves down to the width wanted.
Outcome RasterCache::fill(Entry& entry, int at_most_wide, const Decode& decode) {
  if (entry.by_width.empty()) {
    Result<Raster> raster = decode();
    if (!raster) {
      entry.failed = raster.why();
      return raster.why();
    }
    const int width = raster->width;
    entry.by_width[width] = std::make_shared<const Raster>(std::move(raster).value());
  }
  const int wanted = width_for(entry.by_width.rbegin()->first, at_most_wide);
  for (auto smallest = entry.by_width.begin(); smallest->first > wanted;
       smallest = entry.by_width.begin()) {
    Raster half = halved(*smallest->second);
    const int width = half.width;
    entry.by_width[width] = std::make_shared<const Raster>(std::move(half));
  }
  return Done{};
}

Result<RasterCache::RasterPtr> RasterCache::get(const std::string& key, int at_most_wide,
                                                const Decode& decode) {
  const std::shared_ptr<Entry> found = entry(key);
  const std::lock_guard lock(found->mutex);
  if (found->failed) return *found->failed;
  Outcome filled = fill(*found, at_most_wide, decode);
  if (!filled) return std::move(filled).why();
  std::size_t bytes = 0;
  for (const auto& [width, raster] : found->by_width) {
    bytes += raster->pixels.size() * sizeof(std::uint32_t);
  }
  grew(key, bytes);
  const int full = found->by_width.rbegin()->first;
  return found->by_width.at(width_for(full, at_most_wide));
}

}  // namespace quoin::pictures
