#include "pack/previews.h"

#include <algorithm>

#include "formats/png/png.h"

namespace quoin::pack {
namespace {

constexpr int columns = 8;
constexpr int rows = 6;
constexpr Mm gap = 4_mm;
constexpr Mm caption_height = 6_mm;
constexpr Mm edge = 8_mm;
constexpr std::uint32_t table = 0xFFE9E6E0;  // a warm grey on which white cards show

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
    for (int x = 0; x < width; ++x) to[x] = laid_on(from[x], to[x]);
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

ContactSheets::ContactSheets(Size trim, PictureShelf& shelf, Typesetter& typesetter)
    : trim_(trim), shelf_(shelf), typesetter_(typesetter) {}

ContactSheets::Cell ContactSheets::cell(int index) const {
  const int column = index % columns, row = index / columns;
  return {pixels(edge + (trim_.width + gap) * column),
          pixels(edge + (trim_.height + gap + caption_height) * row)};
}

std::optional<Bytes> ContactSheets::add(const Raster& face, const std::string& caption) {
  if (captions_.empty()) {
    sheet_.width = pixels(edge * 2 + trim_.width * columns + gap * (columns - 1));
    sheet_.height = pixels(edge * 2 + (trim_.height + caption_height) * rows + gap * (rows - 1));
    sheet_.pixels.assign(static_cast<std::size_t>(sheet_.width) * sheet_.height, table);
  }
  const Cell at = cell(static_cast<int>(captions_.size()));
  lay_on(sheet_, face, at.x, at.y);
  captions_.push_back(caption);
  if (captions_.size() == static_cast<std::size_t>(columns * rows)) return take_sheet();
  return std::nullopt;
}

std::optional<Bytes> ContactSheets::finish() {
  if (captions_.empty()) return std::nullopt;
  const int used_rows = (static_cast<int>(captions_.size()) + columns - 1) / columns;
  const Mm height = edge * 2 + (trim_.height + caption_height) * used_rows + gap * (used_rows - 1);
  sheet_.height = pixels(height);
  sheet_.pixels.resize(static_cast<std::size_t>(sheet_.width) * sheet_.height);
  return take_sheet();
}

void ContactSheets::write_captions() {
  for (std::size_t i = 0; i < captions_.size(); ++i) {
    const Size size{trim_.width + gap, caption_height};
    Scene words;
    words.items.push_back(caption_item(captions_[i], Rect{{}, size}));
    typeset(words, typesetter_);
    ImageCanvas image(shelf_, size, preview_ppi, ImageCanvas::Background::transparent);
    draw(words, image.canvas());
    const Cell at = cell(static_cast<int>(i));
    lay_on(sheet_, image.raster(), at.x - pixels(gap / 2), at.y + pixels(trim_.height + 0.8_mm));
  }
}

Bytes ContactSheets::take_sheet() {
  write_captions();
  Bytes png = write_png(sheet_, preview_ppi);
  captions_.clear();
  sheet_ = {};
  return png;
}

Previews::Previews(const game::CardFormat& format, PictureShelf& shelf, Typesetter& typesetter,
                   Staging& staging)
    : format_(format), shelf_(shelf), staging_(staging), contact_(format.size, shelf, typesetter) {}

void Previews::add(const std::string& file, const std::string& caption, const Scene& scene,
                   Diagnostics& found) {
  if (failed_) return;
  Diagnostics undrawn;
  const Raster face = preview(scene, format_.size, format_.corner, shelf_, undrawn);
  for (Diagnostic& one : undrawn) {
    if (undrawn_.insert(one.message).second) found.push_back(std::move(one));
  }
  write("pictures/" + file + ".png", write_png(face, preview_ppi), found);
  if (const std::optional<Bytes> full = contact_.add(face, caption)) write_sheet(*full, found);
}

void Previews::finish(Diagnostics& found) {
  if (const std::optional<Bytes> last = contact_.finish()) write_sheet(*last, found);
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
