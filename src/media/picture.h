#pragma once
#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "base/result.h"
#include "base/world.h"
#include "geometry/geometry.h"

namespace quoin {

enum class PictureFormat { svg, png, jpeg, webp, tiff };
[[nodiscard]] std::string_view to_string(PictureFormat format);

enum class ColourModel { grey, rgb, cmyk };

/// What is known of a picture before its pixels are read.
struct PictureFacts {
  PictureFormat format = PictureFormat::png;
  /// Upright size (EXIF orientation applied): pixels; for SVG its natural size in CSS px, only
  /// its proportion means something.
  double width = 0, height = 0;
  ColourModel model = ColourModel::rgb;
  int bits = 8;
  bool has_alpha = false;
  bool has_profile = false;  ///< an ICC profile is embedded
  std::string profile = {};  ///< what it calls itself; "" without one: then it is taken as sRGB
  int exif_orientation = 1;  ///< 1..8
  [[nodiscard]] bool is_vector() const { return format == PictureFormat::svg; }
};

/// Upright pixels for a screen or a measurement: 8 bits each, premultiplied, native-endian
/// 0xAARRGGBB words (cairo's ARGB32), sRGB (embedded ICC profiles applied).
struct Raster {
  int width = 0, height = 0;
  std::vector<std::uint32_t> pixels;
};

/// A picture as a PDF wants it: the stored pixels as a filtered stream, not turned upright.
struct PreparedImage {
  int width = 0, height = 0;  ///< stored pixels (EXIF orientation not applied)
  int bits = 8;
  ColourModel model = ColourModel::rgb;
  enum class Filter { flate, dct } filter = Filter::flate;
  int png_predictor_colours = 0;      ///< Predictor 15 with that many Colors; 0: no predictor
  bool inverted = false;              ///< Adobe CMYK JPEG: needs /Decode [1 0 1 0 1 0 1 0]
  std::vector<std::uint8_t> palette;  ///< RGB triples when indexed (model is then rgb), else empty
  SharedBytes data;                   ///< already filtered
  Bytes profile;  ///< the embedded ICC profile; empty: sRGB, grey or device CMYK
  std::shared_ptr<const PreparedImage> soft_mask;  ///< grey, same filter rules; null when opaque
};

/// One picture of a game, opened and found sound; immutable and shared. Made by PictureShelf.
class Picture {
 public:
  [[nodiscard]] const PictureFacts& facts() const { return facts_; }
  [[nodiscard]] const std::string& path() const { return path_; }
  /// SHA-256 of the file, in hexadecimal: the picture's identity everywhere.
  [[nodiscard]] const std::string& key() const { return key_; }
  [[nodiscard]] const Bytes& bytes() const { return *bytes_; }
  [[nodiscard]] const std::shared_ptr<const Bytes>& shared_bytes() const { return bytes_; }

  /// For an SVG: the text to hand to the renderer, at 96 px an inch. It stands by itself: pictures
  /// that it shows are in it, everything that would not load has been taken out (and reported), and
  /// its root has a width and a height in px and a viewBox, so that it scales to any viewport.
  [[nodiscard]] const Bytes& safe_svg() const { return safe_svg_; }

  Picture(std::string path, std::string key, std::shared_ptr<const Bytes> bytes, PictureFacts facts,
          Bytes safe_svg);

 private:
  std::string path_, key_;
  std::shared_ptr<const Bytes> bytes_;
  PictureFacts facts_;
  Bytes safe_svg_;
};
using PicturePtr = std::shared_ptr<const Picture>;

/// A place where prepared images are kept between runs, by content; may be absent. `get` gives
/// nothing for what it does not hold or what was damaged.
class ImageCache {
 public:
  virtual ~ImageCache() = default;
  [[nodiscard]] virtual std::optional<Bytes> get(const std::string& key) const = 0;
  virtual void put(const std::string& key, const Bytes& bytes) = 0;
};

/// The pictures of one game, each opened once. All functions may be called from any thread.
///
/// `open` fails with `picture.missing`, `picture.unreadable`, `picture.not-a-picture` (with the
/// name of what it looks like), `picture.damaged`, `picture.unusual-storage`, `picture.too-large`
/// (more than 100 megapixels, or an SVG past its limits), and for an SVG also with
/// `picture.svg-entities`, `picture.svg-circular`, `picture.svg-too-heavy` or
/// `picture.svg-no-size`. It warns with `picture.mislabelled` (a JPEG called .png still loads),
/// `picture.only-the-first`, `picture.profile-not-used`, `picture.svg-will-not-load` (each
/// reference an SVG makes that will not be read), `picture.svg-taken-out` and
/// `picture.svg-toned-down`, and notes `picture.svg-has-text`.
///
/// `pixels` and `prepared` fail with `picture.damaged`, at the file, where only decoding finds it:
/// coded pixels of a JPEG, compressed data of PNG, WebP and TIFF. 16 bits a channel are kept only
/// where a PNG's own data is passed on, and are rounded to 8 elsewhere.
class PictureShelf {
 public:
  explicit PictureShelf(const World& world, ImageCache* cache = nullptr);
  ~PictureShelf();

  /// The picture at `path`; warnings met while opening are appended to `found` at `asked` each
  /// time it is asked for, so that folding can name every card that uses it.
  [[nodiscard]] Result<PicturePtr> open(const std::string& path, const Origin& asked,
                                        Diagnostics& found);

  /// Upright pixels. `at_most_wide` > 0 allows (not demands) a smaller picture, never narrower
  /// than that, for previews. Cached. An SVG fails: it has no pixels of its own.
  [[nodiscard]] Result<std::shared_ptr<const Raster>> pixels(const PicturePtr& picture,
                                                             int at_most_wide = 0);

  /// The picture as a PDF stream: JPEG bytes passed through untouched, PNG data passed through
  /// where PDF can read it as it is, the rest decoded and deflated. Cached in memory and in the
  /// ImageCache. An SVG fails.
  [[nodiscard]] Result<std::shared_ptr<const PreparedImage>> prepared(const PicturePtr& picture);

 private:
  struct State;
  std::unique_ptr<State> state_;
};

/// The pixels of a PNG that Quoin wrote, just as they were by `write_png`; nothing when it is
/// none or damaged.
[[nodiscard]] std::optional<Raster> read_png(std::string_view bytes);

/// Deflates `raw` rows (each `row_bytes` long, `bytes_per_pixel` between neighbours) with PNG
/// predictors chosen per row: for images that Quoin itself makes, such as shadows.
[[nodiscard]] Bytes deflate_rows(const std::uint8_t* raw, int rows, int row_bytes,
                                 int bytes_per_pixel);

}  // namespace quoin
