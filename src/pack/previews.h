#pragma once
#include <functional>
#include <set>
#include <string>
#include <vector>

#include "formats/png/png.h"
#include "game/game.h"
#include "media/picture.h"
#include "pack/staging.h"
#include "scene/scene.h"

namespace quoin::pack {

/// Pixels an inch of the pictures of single cards: small enough to send, large enough to read.
inline constexpr double preview_ppi = 150;

/// The card as it will be held: cut at the trim with its round corners, nothing round it. Texts
/// of the scene must be set. Pictures that cannot be drawn are added to `found`, at their files;
/// there is nothing where they belong.
[[nodiscard]] Raster preview(const Scene& scene, Size trim, Mm corner, PictureShelf& shelf,
                             Diagnostics& found);

/// A face of the pictures: the name of its file, the words under it on the contact sheet, and the
/// name of everything that its looks follow from ("": not known).
struct PreviewFace {
  std::string file;
  std::string caption;
  std::string looks;
};

/// The box on the contact sheet: what draws it so many pixels wide on a ground of that colour, and
/// the name of everything that its looks follow from ("": not known). Nothing to draw: no box.
struct BoxRow {
  std::string looks;
  std::function<Raster(int width, Colour table)> draw;
};

/// Sheets on which all faces stand side by side with their ids, for proof-reading.
class ContactSheets {
 public:
  ContactSheets(Size trim, PictureShelf& shelf, Typesetter& typesetter, ImageCache* cache);

  /// Adds a face by its PNG; when a sheet is full its own PNG is handed back.
  [[nodiscard]] std::optional<Bytes> add(const PreviewFace& face, Bytes png);
  /// The last sheet, when there is something on it; with the box, when there is one, as its last
  /// row.
  [[nodiscard]] std::optional<Bytes> finish(const BoxRow& box);

 private:
  struct Cell {
    int x = 0, y = 0;
  };
  struct Shown {
    PreviewFace face;
    Bytes png;
  };
  /// Where row `row` begins, in pixels from the top of the sheet.
  [[nodiscard]] int row_top(int row) const;
  void write_caption(Raster& band, const std::string& caption, Cell at) const;
  /// One row of the sheet: the faces from number `first` on.
  [[nodiscard]] PngBand band(std::size_t first) const;
  [[nodiscard]] Bytes kept_band(std::size_t first) const;
  [[nodiscard]] std::string band_name(std::size_t first) const;
  [[nodiscard]] std::string box_name(const BoxRow& box) const;
  [[nodiscard]] Bytes take_sheet(const BoxRow& box);
  [[nodiscard]] int sheet_width() const;

  Size trim_;
  PictureShelf& shelf_;
  Typesetter& typesetter_;
  ImageCache* cache_;
  std::vector<Shown> shown_;
};

/// The pictures of a pack: one for each face and the contact sheets. Those that an earlier run
/// drew are taken from the cache.
class Previews {
 public:
  Previews(const game::CardFormat& format, PictureShelf& shelf, Typesetter& typesetter,
           Staging& staging, ImageCache* cache);

  /// Adds one face, written as `pictures/FILE.png`. What goes wrong is added to `found`: pictures
  /// that cannot be drawn, each once however many faces show it, and the first file that cannot be
  /// written. None is written after that: a full disk is told once, not for every card.
  void add(const PreviewFace& face, const Scene& scene, Diagnostics& found);
  /// Writes the last contact sheet, the box in its last row.
  void finish(const BoxRow& box, Diagnostics& found);

 private:
  void write_sheet(const Bytes& png, Diagnostics& found);
  void write(const std::string& path, const Bytes& png, Diagnostics& found);

  const game::CardFormat& format_;
  PictureShelf& shelf_;
  Staging& staging_;
  ImageCache* cache_;
  ContactSheets contact_;
  int sheets_ = 0;
  bool failed_ = false;
  std::set<std::string> undrawn_;  // what was said of pictures
};

}  // namespace quoin::pack
