#pragma once
#include <set>
#include <string>
#include <vector>

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

/// Sheets on which all faces stand side by side with their ids, for proof-reading.
class ContactSheets {
 public:
  ContactSheets(Size trim, PictureShelf& shelf, Typesetter& typesetter);

  /// Adds a face; when a sheet is full its PNG is handed back.
  [[nodiscard]] std::optional<Bytes> add(const Raster& face, const std::string& caption);
  /// The last sheet, when there is something on it.
  [[nodiscard]] std::optional<Bytes> finish();

 private:
  struct Cell {
    int x = 0, y = 0;
  };
  [[nodiscard]] Cell cell(int index) const;
  void write_captions();
  [[nodiscard]] Bytes take_sheet();

  Size trim_;
  PictureShelf& shelf_;
  Typesetter& typesetter_;
  Raster sheet_;
  std::vector<std::string> captions_;
};

/// The pictures of a pack: one for each face and the contact sheets.
class Previews {
 public:
  Previews(const game::CardFormat& format, PictureShelf& shelf, Typesetter& typesetter,
           Staging& staging);

  /// Adds one face, written as `pictures/FILE.png`. What goes wrong is added to `found`: pictures
  /// that cannot be drawn, each once however many faces show it, and the first file that cannot be
  /// written. None is written after that: a full disk is told once, not for every card.
  void add(const std::string& file, const std::string& caption, const Scene& scene,
           Diagnostics& found);
  /// Writes the last contact sheet.
  void finish(Diagnostics& found);

 private:
  void write_sheet(const Bytes& png, Diagnostics& found);
  void write(const std::string& path, const Bytes& png, Diagnostics& found);

  const game::CardFormat& format_;
  PictureShelf& shelf_;
  Staging& staging_;
  ContactSheets contact_;
  int sheets_ = 0;
  bool failed_ = false;
  std::set<std::string> undrawn_;  // what was said of pictures
};

}  // namespace quoin::pack
