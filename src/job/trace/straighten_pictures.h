#pragma once
#include <optional>
#include <string>
#include <vector>

#include "job/job.h"
#include "trace/photo/cut_out.h"
#include "trace/photo/straighten.h"

namespace quoin::job {

using CardCorners = std::array<trace::Spot, 4>;

/// How cards are taken out of a photograph.
struct StraightenWishes {
  trace::CardShape shape;
  trace::CardCount count = trace::CardCount::as_it_looks;
  trace::OutsideCorners outside = trace::OutsideCorners::as_seen;
  /// Corners given by hand, of each card in any order round it; empty: they are looked for.
  std::vector<CardCorners> corners;
  std::optional<trace::CutOutWishes> cut_out;  ///< the plain ground of each card made transparent
};

/// Cards found in one picture.
struct CardsFound {
  std::string picture;
  trace::FoundCards cards;  ///< no cards when the picture could not be read
  std::shared_ptr<const Raster> pixels;
  Diagnostics found;
};

/// Looks for the cards in a file that `world` has, named `shown` in what is found; nothing is
/// written. When `wishes.corners` has some, those are checked and taken.
///
/// `found` has what PictureShelf finds, `trace.already-vectors`, `straighten.too-small`,
/// `straighten.corners-odd`, `straighten.no-card`, `straighten.uncertain-corners` (one for each
/// such card, with the corners as they are typed) and `straighten.very-slanted`.
[[nodiscard]] CardsFound find_cards_in(const World& world, const std::string& path,
                                       const std::string& shown, const StraightenWishes& wishes);

/// One card, straightened.
struct StraightCard {
  trace::FoundCard card;
  Raster picture;
  double ppi = 0;    ///< when printed at the size of the shape
  std::string file;  ///< where it was written, on disk
  bool written = false;
};

/// What became of one photograph.
struct StraightPicture {
  std::string picture;
  std::vector<StraightCard> cards;
  bool grid = false, whole_picture = false;
  int width = 0, height = 0;  ///< of the photograph, px
  Diagnostics found;
};

/// Finds and straightens the cards of a file, in memory. `found` also has what trace::cut_out
/// finds, when that is wished; a card that cannot be cut out stays as it is.
[[nodiscard]] StraightPicture straighten_file(const World& world, const std::string& path,
                                              const std::string& shown,
                                              const StraightenWishes& wishes);

/// A picture cut out, in memory; nothing in `picture.pixels` when it could not be.
struct CutPicture {
  std::string picture, file;
  Raster cut;
  double share = 0;  ///< of its pixels that became fully transparent
  bool written = false;
  Diagnostics found;
};
[[nodiscard]] CutPicture cut_out_file(const World& world, const std::string& path,
                                      const std::string& shown, const trace::CutOutWishes& wishes);

/// What `quoin straighten` is asked for; paths are on disk.
struct StraightenOrder {
  std::vector<std::string> pictures;
  /// A name that ends in .png: the card of the one picture; several cards get -1, -2 … before the
  /// ending. Else a folder. "": beside each picture, as NAME-straight.png or NAME-1.png …
  std::string out;
  std::string shown;  ///< for one picture: where it goes with the corners drawn; "": nowhere
  StraightenWishes wishes;
};
struct CutOutOrder {
  std::vector<std::string> pictures;
  std::string out;  ///< as in StraightenOrder; "": NAME-cut-out.png beside each picture
  trace::CutOutWishes wishes;
};

/// Straightens pictures, as many at a time as the machine has cores, and writes the cards as PNG:
/// whole or not at all, and never over a file that was not named in the order.
///
/// Beside what straighten_file finds: `trace.file-there`, `trace.not-written`, `pack.cancelled`.
[[nodiscard]] std::vector<StraightPicture> straighten_pictures(const StraightenOrder& order,
                                                               Watcher& watcher);
[[nodiscard]] std::vector<CutPicture> cut_out_pictures(const CutOutOrder& order, Watcher& watcher);

/// For other programs: an object with `pictures`.
[[nodiscard]] Bytes straighten_report(const std::vector<StraightPicture>& pictures);
[[nodiscard]] Bytes cut_out_report(const std::vector<CutPicture>& pictures);

}  // namespace quoin::job
