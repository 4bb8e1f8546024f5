#include "media/picture.h"

#include <fmt/format.h>

#include <map>
#include <mutex>
#include <stdexcept>

#include "base/hash.h"
#include "media/pictures/bitmap_cache.h"
#include "media/pictures/limits.h"
#include "media/pictures/opening.h"
#include "media/pictures/prepare.h"
#include "media/pictures/prepared_store.h"
#include "media/pictures/raster.h"
#include "media/pictures/raster_cache.h"
#include "media/pictures/readers.h"

namespace quoin {
namespace {

using namespace pictures;

/// A file of the game as it was found when it was first asked for.
struct Opened {
  std::once_flag once;
  PicturePtr picture;  ///< null when it could not be opened
  Diagnostics found;   ///< why not, or what is worth saying
};

using PreparedPtr = std::shared_ptr<const PreparedImage>;
struct PreparedOnce {
  std::once_flag once;
  PreparedPtr image;
  Diagnostics why;
};

void open_once(Opened& opened, const std::string& path, const Surroundings& around) {
  Result<std::shared_ptr<const Bytes>> bytes = read_file(around.world, path);
  if (!bytes) {
    opened.found = bytes.why();
    return;
  }
  Nesting nesting{{path}};
  Result<FirstLook> look = look_at({path, **bytes}, around, nesting);
  if (!look) {
    opened.found = look.why();
    return;
  }
  opened.found = std::move(look->remarks);
  opened.picture = std::make_shared<const Picture>(path, sha256(**bytes), *bytes, look->facts,
                                                   std::move(look->safe_svg));
}

Diagnostic no_pixels(const Picture& picture) {
  return about(Id::picture_svg_no_pixels, {picture.path(), picture.bytes()},
               "is a drawing, and what uses it needs pixels")
      .hint("save it as a PNG at 600 px an inch of its printed size");
}

SourceFile source_of(const Picture& picture) {
  return {picture.path(), picture.bytes(), picture.shared_bytes()};
}

/// The picture upright and just `width` wide, which is its own width halved some times.
Result<Raster> upright_at(const Picture& picture, int width, BitmapCache& bitmaps) {
  const PictureFacts& facts = picture.facts();
  const int full = static_cast<int>(facts.width);
  int halvings = 0;
  for (int w = full; w > width; w = (w + 1) / 2) ++halvings;
  const SourceFile file = source_of(picture);
  Result<BitmapCache::BitmapPtr> bitmap =
      facts.format == PictureFormat::jpeg
          ? BitmapCache::shared(decode_raster(file, facts.format, halvings))
          : bitmaps.get(picture.key(), [&] { return decode_raster(file, facts.format); });
  if (!bitmap) return std::move(bitmap).why();
  Raster raster = upright(**bitmap, facts.exif_orientation);
  while (raster.width > width) raster = halved(raster);
  return raster;
}

/// The prepared image as the cache remembers it, or nothing.
std::optional<PreparedImage> remembered(const Picture& picture, const ImageCache& cache) {
  std::optional<Bytes> bytes = cache.get(stored_name(picture.key()));
  std::optional<StoredImage> stored =
      bytes ? restore(std::make_shared<const Bytes>(std::move(*bytes))) : std::nullopt;
  if (!stored) return std::nullopt;
  if (stored->image) return std::move(stored->image);
  Result<std::optional<PreparedImage>> own =
      known_as_stored(source_of(picture), picture.facts().format);
  return own ? std::move(*own) : std::nullopt;
}

struct Made {
  PreparedImage image;
  bool is_files_own = false;  ///< so that keeping the data a second time would be a waste
};

Result<Made> prepare(const Picture& picture, BitmapCache& bitmaps) {
  const SourceFile file = source_of(picture);
  Result<std::optional<PreparedImage>> own = as_stored(file, picture.facts().format);
  if (!own) return std::move(own).why();
  if (*own) return Made{std::move(**own), true};
  const Result<BitmapCache::BitmapPtr> bitmap =
      bitmaps.get(picture.key(), [&] { return decode_raster(file, picture.facts().format); });
  if (!bitmap) return bitmap.why();
  return Made{deflated(**bitmap)};
}

void prepare_once(PreparedOnce& prepared, const Picture& picture, BitmapCache& bitmaps,
                  ImageCache* cache) {
  if (cache != nullptr) {
    std::optional<PreparedImage> known = remembered(picture, *cache);
    if (known) {
      prepared.image = std::make_shared<const PreparedImage>(std::move(*known));
      return;
    }
  }
  Result<Made> made = prepare(picture, bitmaps);
  if (!made) {
    prepared.why = made.why();
    return;
  }
  prepared.image = std::make_shared<const PreparedImage>(std::move(made->image));
  if (cache == nullptr) return;
  cache->put(stored_name(picture.key()),
             store(made->is_files_own ? StoredImage{} : StoredImage{*prepared.image}));
}

/// Lets one thread at a time at the cache, whose owner need not think of threads.
class OneAtATime : public ImageCache {
 public:
  explicit OneAtATime(ImageCache& cache) : cache_(cache) {}
  [[nodiscard]] std::optional<Bytes> get(const std::string& key) const override {
    const std::lock_guard lock(mutex_);
    return cache_.get(key);
  }
  void put(const std::string& key, const Bytes& bytes) override {
    const std::lock_guard lock(mutex_);
    cache_.put(key, bytes);
  }

 private:
  ImageCache& cache_;
  mutable std::mutex mutex_;
};

/// The entry for `key`, made when it is new.
template <typename Entry>
std::shared_ptr<Entry> entry(std::mutex& mutex, std::map<std::string, std::shared_ptr<Entry>>& all,
                             const std::string& key) {
  const std::lock_guard lock(mutex);
  std::shared_ptr<Entry>& found = all[key];
  if (found == nullptr) found = std::make_shared<Entry>();
  return found;
}

}  // namespace

std::string_view to_string(PictureFormat format) {
  switch (format) {
    case PictureFormat::svg:
      return "SVG";
    case PictureFormat::png:
      return "PNG";
    case PictureFormat::jpeg:
      return "JPEG";
    case PictureFormat::webp:
      return "WebP";
    case PictureFormat::tiff:
      return "TIFF";
  }
  throw std::logic_error("a picture format outside its enumeration");
}

Picture::Picture(std::string path, std::string key, std::shared_ptr<const Bytes> bytes,
                 PictureFacts facts, Bytes safe_svg)
    : path_(std::move(path)),
      key_(std::move(key)),
      bytes_(std::move(bytes)),
      facts_(facts),
      safe_svg_(std::move(safe_svg)) {}

struct PictureShelf::State {
  State(const World& world, ImageCache* cache) : around{world, nullptr} {
    if (cache == nullptr) return;
    kept.emplace(*cache);
    around.cache = &*kept;
  }
  std::optional<OneAtATime> kept;
  Surroundings around;
  std::mutex mutex;
  std::map<std::string, std::shared_ptr<Opened>> opened;          // by path
  std::map<std::string, std::shared_ptr<PreparedOnce>> prepared;  // by key
  RasterCache rasters{most_raster_memory};
  BitmapCache bitmaps;
};

PictureShelf::PictureShelf(const World& world, ImageCache* cache)
    : state_(std::make_unique<State>(world, cache)) {}

PictureShelf::~PictureShelf() = default;

Result<PicturePtr> PictureShelf::open(const std::string& path, const Origin& asked,
                                      Diagnostics& found) {
  const std::string normal = normal_path(path);
  const std::string& name = normal.empty() ? path : normal;
  const std::shared_ptr<Opened> opened = entry(state_->mutex, state_->opened, name);
  std::call_once(opened->once, [&] { open_once(*opened, name, state_->around); });
  Diagnostics here = opened->found;
  for (Diagnostic& d : here) d.origin = asked;
  if (opened->picture == nullptr) return here;
  found.insert(found.end(), here.begin(), here.end());
  return opened->picture;
}

Result<std::shared_ptr<const Raster>> PictureShelf::pixels(const PicturePtr& picture,
                                                           int at_most_wide) {
  if (picture->facts().is_vector()) return no_pixels(*picture);
  return state_->rasters.get(
      picture->key(), static_cast<int>(picture->facts().width), at_most_wide,
      [&](int width) { return upright_at(*picture, width, state_->bitmaps); });
}

Result<PreparedPtr> PictureShelf::prepared(const PicturePtr& picture) {
  if (picture->facts().is_vector()) return no_pixels(*picture);
  const std::shared_ptr<PreparedOnce> prepared =
      entry(state_->mutex, state_->prepared, picture->key());
  std::call_once(prepared->once,
                 [&] { prepare_once(*prepared, *picture, state_->bitmaps, state_->around.cache); });
  if (prepared->image == nullptr) return prepared->why;
  return prepared->image;
}

std::optional<Raster> read_png(std::string_view bytes) {
  const Result<Bitmap> bitmap = decode_raster({"", bytes}, PictureFormat::png);
  return bitmap ? std::optional(upright(*bitmap, 1)) : std::nullopt;
}

}  // namespace quoin
