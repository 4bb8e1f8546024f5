#pragma once
#include <memory>

#include "formats/document.h"

namespace quoin {

/// Symbols drawn once, ready to be placed by any number of documents: the fronts, the backs, the
/// two together and the one-up file share the drawing work.
class DrawnSymbols {
 public:
  struct State;
  /// Draws every symbol in order, its texts already set; `progress` (may be empty) is told how
  /// many are done and answers false to stop (then `pdf.cancelled`). Fails also with what the
  /// shelf says of a picture that cannot be drawn.
  [[nodiscard]] static Result<DrawnSymbols> draw(const std::vector<Symbol>& symbols,
                                                 PictureShelf& shelf,
                                                 const std::function<bool(int)>& progress);
  struct Both;
  /// The same, and once more as `other` makes each scene (its number among the symbols and the
  /// scene as it was drawn; texts must be set in what it gives back): each is made once.
  [[nodiscard]] static Result<Both> draw_both(
      const std::vector<Symbol>& symbols,
      const std::function<Scene(std::size_t, const Scene&)>& other, PictureShelf& shelf,
      const std::function<bool(int)>& progress);
  ~DrawnSymbols();
  DrawnSymbols(DrawnSymbols&&) noexcept;
  [[nodiscard]] const State& state() const { return *state_; }

 private:
  explicit DrawnSymbols(std::unique_ptr<State> state);
  std::unique_ptr<State> state_;
};

struct DrawnSymbols::Both {
  DrawnSymbols as_they_are, changed;
};

/// Writes the document as PDF 1.7: text as text, vectors as vectors, each picture and each symbol
/// once, sRGB as ICC-based colour, MediaBox > BleedBox > TrimBox, layers "Artwork" and "Marks",
/// PrintScaling None, Duplex as asked, title shown, language, page labels, no date, byte-identical
/// for equal input. Symbols that no page places are left out.
///
/// What a page draws itself lies where each item's `layer` says: `mark` on "Marks", `art` on
/// "Artwork", others on layers "Cut", "Crease" and so on, made when they are used. Boxes are cut
/// to lie in each other; an empty trim or bleed means the whole page.
///
/// With `LineWork::spot_colours` the items of a page on cut, crease, glue, bleed, safe and
/// dimension become spot colours "Cut", "Crease", "Glue", "Bleed", "Safe area" and "Dimensions"
/// that overprint (ISO 32000-1, 8.6.6.4 and 8.6.7), their layers carry the metadata of processing
/// steps (ISO 19593-1:2018; there is no step for the safe area), and their colours in the drawing
/// count only by their opacity, which becomes the tint. They may hold what `line_work` takes.
///
/// Fails with `pdf.page-too-large`, `pdf.page-too-small` and what the shelf says of a picture.
[[nodiscard]] Result<Bytes> write_pdf(Document document, const DrawnSymbols& symbols,
                                      PictureShelf& shelf);

/// The two halves of `write_pdf`: what the pages draw themselves is recorded where its texts were
/// set, and the file is put together by any thread, several of one set of symbols at a time.
class RecordedDocument {
 public:
  RecordedDocument(Document document, PictureShelf& shelf);
  ~RecordedDocument();
  RecordedDocument(const RecordedDocument&) = delete;
  RecordedDocument& operator=(const RecordedDocument&) = delete;

  /// Sends the file to `sink`, from its start to its end; fails as `write_pdf` does, before the
  /// first byte.
  [[nodiscard]] Outcome write(const DrawnSymbols& symbols, PictureShelf& shelf,
                              const ByteSink& sink) const;

 private:
  struct State;
  std::unique_ptr<const State> state_;
};

}  // namespace quoin
