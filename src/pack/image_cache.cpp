#include "pack/image_cache.h"

#include <unistd.h>

#include <algorithm>
#include <atomic>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <vector>

namespace quoin::pack {
namespace fs = std::filesystem;
namespace {

class DiskCache : public ImageCache {
 public:
  explicit DiskCache(fs::path folder) : folder_(std::move(folder)) {
    std::error_code ignored;
    fs::create_directories(folder_, ignored);
  }

  [[nodiscard]] std::optional<Bytes> get(const std::string& key) const override {
    std::ifstream in(folder_ / key, std::ios::binary | std::ios::ate);
    if (!in) return std::nullopt;
    Bytes bytes(static_cast<std::size_t>(in.tellg()), '\0');
    in.seekg(0);
    in.read(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    return in ? std::optional(std::move(bytes)) : std::nullopt;
  }

  void put(const std::string& key, const Bytes& bytes) override {
    // Written beside and renamed, so that two runs at once never see half a file.
    static std::atomic<int> count{0};
    const fs::path part =
        folder_ / (key + ".part" + std::to_string(::getpid()) + "-" + std::to_string(count++));
    std::error_code ignored;
    {
      std::ofstream out(part, std::ios::binary);
      out.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
      out.close();
      if (!out) {
        fs::remove(part, ignored);
        return;
      }
    }
    fs::rename(part, folder_ / key, ignored);
    if (ignored) fs::remove(part, ignored);
  }

  void drop_oldest(std::size_t largest) {
    struct Kept {
      fs::path path;
      fs::file_time_type used;
      std::size_t size;
    };
    std::vector<Kept> kept;
    std::size_t total = 0;
    std::error_code ec;
    for (fs::directory_iterator it(folder_, ec), end; !ec && it != end; it.increment(ec)) {
      std::error_code one;
      const std::size_t size = it->file_size(one);
      const fs::file_time_type used = it->last_write_time(one);
      if (one) continue;
      kept.push_back({it->path(), used, size});
      total += size;
    }
    if (total <= largest) return;
    std::sort(kept.begin(), kept.end(),
              [](const Kept& a, const Kept& b) { return a.used < b.used; });
    for (const Kept& old : kept) {
      if (total <= largest) break;
      std::error_code one;
      if (fs::remove(old.path, one)) total -= old.size;
    }
  }

 private:
  fs::path folder_;
};

}  // namespace

std::unique_ptr<ImageCache> image_cache(const std::string& folder, std::size_t largest) {
  auto cache = std::make_unique<DiskCache>(folder);
  cache->drop_oldest(largest);
  return cache;
}

}  // namespace quoin::pack
