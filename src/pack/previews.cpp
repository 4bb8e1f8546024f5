#include "pack/previews.h"

#include <fmt/format.h>

#include <algorithm>

#include "base/hash.h"
#include "base/packed.h"
#include "formats/png/png.h"
#include "pack/kept_bytes.h"

namespace quoin::pack {
namespace {

constexpr int columns = 8;
constexpr int rows = 6;
constexpr Mm gap = 4_mm;
constexpr Mm caption_height = 6_mm;
constexpr Mm edge = 8_mm;
constexpr Colour table_colour{0xE9 / 255.0, 0xE6 / 255.0, 0xE0 / 255.0, 1};
constexpr std::uint32_t table = 0xFFE9E6E0;  // the same: a warm grey on which white cards show

int pixels(Mm length) {
  return static_cast<int>(std::lround(length.value / mm_per_inch * preview_ppi));
}

/// `over` (premultiplied) laid on an opaque pixel.
std::uint32_t laid_on(std::uint32_t over, std::uint32_t under) {
  const std::uint32_t rest = 255 - (over >> 24);
  std::uint32_t result = 0;
  for (int shift = 0; shift < 32; shift += 8) {
    const std::uint32_t sum =
        ((over >> shift) & 255) + (((under >> shift) & 255) * rest + 127) / 255;
    result |= std::min(sum, 255U) << shift;
  }
  return result;
}

void lay_on(Raster& sheet, const Raster& picture, int left, int top) {
  const int width = std::min(picture.width, sheet.width - left);
  const int height = std::min(picture.height, sheet.height - top);
  for (int y = 0; y < height; ++y) {
    const std::uint32_t* from = &picture.pixels[static_cast<std::size_t>(y * picture.width)];
    std::uint32_t* to = &sheet.pixels[static_cast<std::size_t>((top + y) * sheet.width + left)];
    for (int x = 0; x < width; ++x)
      to[x] = from[x] >> 24 == 255 ? from[x] : laid_on(from[x], to[x]);
  }
}

Item caption_item(const std::string& text, Rect box) {
  TextItem caption;
  caption.block.style.family = house_family;
  caption.block.style.type_size = Mm{3.2};
  caption.block.style.smallest_size = Mm{1.6};
  caption.block.style.align = TextAlign::centre;
  caption.block.style.fill = Colour{0.2, 0.2, 0.2, 1};
  caption.block.runs = {TextRun{text, false, false, nullptr}};
  caption.block.box = box.size;
  caption.at = box.at;
  Item item;
  item.what = std::move(caption);
  return item;
}

Bytes packed(const PngBand& band) {
  PackedWriter out;
  for (const int number : {band.width, band.height}) {
    out.number(static_cast<std::uint64_t>(number));
  }
  out.number(band.sum);
  out.string(band.data);
  return out.take();
}

PngBand unpacked(const Bytes& bytes) {
  PackedReader in(bytes);
  PngBand band;
  band.width = static_cast<int>(in.number());
  band.height = static_cast<int>(in.number());
  band.sum = static_cast<std::uint32_t>(in.number());
  band.data = in.string();
  return band;
}

template <typename Make>
Bytes kept_or_made(ImageCache* cache, const std::string& name, const Make& make) {
  if (std::optional<Bytes> bytes = kept(cache, "contact", name)) return std::move(*bytes);
  Bytes bytes = packed(make());
  keep(cache, "contact", name, bytes);
  return bytes;
}

}  // namespace

Raster preview(const Scene& scene, Size trim, Mm corner, PictureShelf& shelf, Diagnostics& found) {
  ImageCanvas image(shelf, trim, preview_ppi, ImageCanvas::Background::transparent);
  image.canvas().save();
  image.canvas().clip(Path::rounded_rectangle(Rect{{}, trim}, corner));
  image.canvas().fill(Path::rectangle(Rect{{}, trim}), white);
  draw(scene, image.canvas());
  image.canvas().restore();
  found.insert(found.end(), image.found().begin(), image.found().end());
  return image.raster();
}

ContactSheets::ContactSheets(Size trim, PictureShelf& shelf, Typesetter& typesetter,
                             ImageCache* cache)
    : trim_(trim), shelf_(shelf), typesetter_(typesetter), cache_(cache) {}

int ContactSheets::row_top(int row) const {
  return pixels(edge + (trim_.height + gap + caption_height) * row);
}

std::optional<Bytes> ContactSheets::add(const PreviewFace& face, Bytes png) {
  shown_.push_back({face, std::move(png)});
  if (shown_.size() == static_cast<std::size_t>(columns * rows)) return take_sheet({});
  return std::nullopt;
}

std::optional<Bytes> ContactSheets::finish(const BoxRow& box) {
  if (shown_.empty() && !box.draw) return std::nullopt;
  return take_sheet(box);
}

int ContactSheets::sheet_width() const {
  return pixels(edge * 2 + trim_.width * columns + gap * (columns - 1));
}

void ContactSheets::write_caption(Raster& band, const std::string& caption, Cell at) const {
  const Size size{trim_.width + gap, caption_height};
  Scene words;
  words.items.push_back(caption_item(caption, Rect{{}, size}));
  typeset(words, typesetter_);
  ImageCanvas image(shelf_, size, preview_ppi, ImageCanvas::Background::transparent);
  draw(words, image.canvas());
  lay_on(band, image.raster(), at.x - pixels(gap / 2), at.y + pixels(trim_.height + 0.8_mm));
}

PngBand ContactSheets::band(std::size_t first) const {
  const int row = static_cast<int>(first) / columns;
  const bool is_last = first + columns >= shown_.size();
  const int bottom = is_last ? row_top(row + 1) - pixels(gap) + pixels(edge) : row_top(row + 1);
  const int top = row == 0 ? 0 : row_top(row);
  Raster band;
  band.width = sheet_width();
  band.height = bottom - top;
  band.pixels.assign(static_cast<std::size_t>(band.width) * band.height, table);
  const std::size_t end = std::min(shown_.size(), first + columns);
  for (std::size_t i = first; i < end; ++i) {
    const Cell at{pixels(edge + (trim_.width + gap) * static_cast<int>(i - first)),
                  row_top(row) - top};
    if (const auto face = read_png(shown_[i].png)) lay_on(band, *face, at.x, at.y);
    write_caption(band, shown_[i].face.caption, at);
  }
  return write_band(band);
}

/// Names all that the band follows from; "" when the looks of one of its faces are not known.
std::string ContactSheets::band_name(std::size_t first) const {
  PackedWriter all;
  const std::size_t end = std::min(shown_.size(), first + columns);
  all.number(first);
  all.number(end == shown_.size() ? 1 : 0);
  for (std::size_t i = first; i < end; ++i) {
    if (shown_[i].face.looks.empty()) return {};
    all.string(shown_[i].face.looks);
    all.string(shown_[i].face.caption);
  }
  return sha256(all.take());
}

Bytes ContactSheets::kept_band(std::size_t first) const {
  return kept_or_made(cache_, band_name(first), [&] { return band(first); });
}

/// Everything that the row with the box follows from.
std::string ContactSheets::box_name(const BoxRow& box) const {
  return box.looks.empty() ? std::string{} : fmt::format("{}-{}", box.looks, sheet_width());
}

Bytes ContactSheets::take_sheet(const BoxRow& box) {
  std::vector<PngBand> bands;
  for (std::size_t first = 0; first < shown_.size(); first += columns) {
    bands.push_back(unpacked(kept_band(first)));
  }
  shown_.clear();
  if (box.draw) {
    bands.push_back(unpacked(kept_or_made(
        cache_, box_name(box), [&] { return write_band(box.draw(sheet_width(), table_colour)); })));
  }
  return join_bands(bands, preview_ppi);
}

Previews::Previews(const game::CardFormat& format, PictureShelf& shelf, Typesetter& typesetter,
                   Staging& staging, ImageCache* cache)
    : format_(format),
      shelf_(shelf),
      staging_(staging),
      cache_(cache),
      contact_(format.size, shelf, typesetter, cache) {}

void Previews::add(const PreviewFace& face, const Scene& scene, Diagnostics& found) {
  if (failed_) return;
  PreviewFace known = face;
  std::optional<Bytes> png = kept(cache_, "preview", face.looks);
  if (!png) {
    Diagnostics undrawn;
    png = write_png(preview(scene, format_.size, format_.corner, shelf_, undrawn), preview_ppi);
    if (undrawn.empty()) {
      keep(cache_, "preview", face.looks, *png);
    } else {
      known.looks.clear();
    }
    for (Diagnostic& one : undrawn) {
      if (undrawn_.insert(one.message).second) found.push_back(std::move(one));
    }
  }
  write("pictures/" + face.file + ".png", *png, found);
  if (const auto full = contact_.add(known, std::move(*png))) write_sheet(*full, found);
}

void Previews::finish(const BoxRow& box, Diagnostics& found) {
  if (const std::optional<Bytes> last = contact_.finish(box)) write_sheet(*last, found);
}

void Previews::write_sheet(const Bytes& png, Diagnostics& found) {
  ++sheets_;
  const std::string number = sheets_ == 1 ? "" : "-" + std::to_string(sheets_);
  write("pictures/contact-sheet" + number + ".png", png, found);
}

void Previews::write(const std::string& path, const Bytes& png, Diagnostics& found) {
  if (!failed_) failed_ = !staging_.write(path, png).or_report(found);
}

}  // namespace quoin::pack
