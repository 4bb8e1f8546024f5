#include "media/pictures/bitmap_cache.h"

#include <algorithm>

namespace quoin::pictures {
namespace {

constexpr std::size_t most_bytes = std::size_t{24} << 20;

}  // namespace

Result<BitmapCache::BitmapPtr> BitmapCache::shared(Result<Bitmap> bitmap) {
  if (!bitmap) return std::move(bitmap).why();
  return std::make_shared<const Bitmap>(std::move(*bitmap));
}

BitmapCache::EntryPtr BitmapCache::entry(const std::string& key) {
  const std::lock_guard lock(mutex_);
  const auto known = std::find_if(kept_.begin(), kept_.end(),
                                  [&](const EntryPtr& entry) { return entry->key == key; });
  if (known != kept_.end()) {
    kept_.splice(kept_.begin(), kept_, known);
    return kept_.front();
  }
  kept_.push_front(std::make_shared<Entry>());
  kept_.front()->key = key;
  return kept_.front();
}

/// Books what the bitmap takes, and lets the oldest others go until all of it fits.
void BitmapCache::grew(const EntryPtr& entry, std::size_t bytes) {
  const std::lock_guard lock(mutex_);
  entry->bytes = bytes;
  std::size_t sum = 0;
  kept_.remove_if([&](const EntryPtr& kept) {
    sum += kept->bytes;
    return kept != entry && kept->bytes > 0 && sum > most_bytes;
  });
}

Result<BitmapCache::BitmapPtr> BitmapCache::get(const std::string& key,
                                                const std::function<Result<Bitmap>()>& decode) {
  const EntryPtr at = entry(key);
  const std::lock_guard lock(at->decoding);
  if (at->bitmap != nullptr) return at->bitmap;
  Result<BitmapPtr> made = shared(decode());
  if (!made) return made;
  at->bitmap = *made;
  grew(at, at->bitmap->samples.size());
  return made;
}

}  // namespace quoin::pictures
