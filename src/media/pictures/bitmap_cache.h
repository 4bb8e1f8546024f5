#pragma once
#include <functional>
#include <list>
#include <memory>
#include <mutex>
#include <string>

#include "media/pictures/bitmap.h"

namespace quoin::pictures {

/// The pictures decoded last, 24 MiB of them or at least the last: one decoding serves both the
/// pixels that are looked at and those that are put into a file. Any thread may ask; each picture
/// is decoded by one of them while the others wait for it.
class BitmapCache {
 public:
  using BitmapPtr = std::shared_ptr<const Bitmap>;

  /// The bitmap of that key, decoded when it is not at hand.
  [[nodiscard]] Result<BitmapPtr> get(const std::string& key,
                                      const std::function<Result<Bitmap>()>& decode);

  [[nodiscard]] static Result<BitmapPtr> shared(Result<Bitmap> bitmap);

 private:
  struct Entry {
    std::string key;
    std::mutex decoding;
    BitmapPtr bitmap;       // guarded by `decoding`
    std::size_t bytes = 0;  // guarded by the cache's mutex
  };
  using EntryPtr = std::shared_ptr<Entry>;

  [[nodiscard]] EntryPtr entry(const std::string& key);
  void grew(const EntryPtr& entry, std::size_t bytes);

  std::mutex mutex_;
  std::list<EntryPtr> kept_;  // the latest first
};

}  // namespace quoin::pictures
