#pragma once
#include <cstdint>
#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <string>

#include "media/picture.h"

namespace quoin::pictures {

/// Decoded pictures at full size and halved again and again; bounded in memory: the picture that
/// was not asked for longest goes first (whoever still holds one keeps it). Any thread may ask;
/// each picture is decoded by one of them while the others wait.
class RasterCache {
 public:
  using RasterPtr = std::shared_ptr<const Raster>;
  using Decode = std::function<Result<Raster>()>;

  explicit RasterCache(std::size_t most_bytes) : most_bytes_(most_bytes) {}

  /// The picture of that key, halved as often as it stays at or over `at_most_wide` (0: never).
  [[nodiscard]] Result<RasterPtr> get(const std::string& key, int at_most_wide,
                                      const Decode& decode);

 private:
  struct Entry {
    std::mutex mutex;
    std::map<int, RasterPtr> by_width;
    std::optional<Diagnostics> failed;
    std::size_t bytes = 0;         // guarded by the cache's mutex
    std::uint64_t last_asked = 0;  // guarded by the cache's mutex
  };

  std::shared_ptr<Entry> entry(const std::string& key);
  void grew(const std::string& key, std::size_t bytes);
  Outcome fill(Entry& entry, int at_most_wide, const Decode& decode);

  std::size_t most_bytes_;
  std::mutex mutex_;
  std::map<std::string, std::shared_ptr<Entry>> entries_;
  std::uint64_t asked_ = 0;
  std::size_t bytes_ = 0;
};

}  // namespace quoin::pictures
