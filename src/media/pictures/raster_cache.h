#pragma once
#include <cstdint>
#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <string>

#include "media/picture.h"

namespace quoin::pictures {

/// Pictures at full size and halved again and again; bounded in memory: the picture that was not
/// asked for longest goes first (whoever still holds one keeps it). Any thread may ask; each size
/// of a picture is made by one of them while the others wait. Sizes are made apart from another,
/// so that nothing depends on the order in which they are asked for.
class RasterCache {
 public:
  using RasterPtr = std::shared_ptr<const Raster>;
  /// Makes the picture just so wide: its full width, halved and rounded up some times.
  using Make = std::function<Result<Raster>(int width)>;

  explicit RasterCache(std::size_t most_bytes) : most_bytes_(most_bytes) {}

  /// The picture of that key, `full_width` wide, halved as often as it stays at or over
  /// `at_most_wide` (0: never).
  [[nodiscard]] Result<RasterPtr> get(const std::string& key, int full_width, int at_most_wide,
                                      const Make& make);

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

  std::size_t most_bytes_;
  std::mutex mutex_;
  std::map<std::string, std::shared_ptr<Entry>> entries_;
  std::uint64_t asked_ = 0;
  std::size_t bytes_ = 0;
};

}  // namespace quoin::pictures
