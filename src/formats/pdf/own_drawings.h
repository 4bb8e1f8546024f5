#pragma once
#include <span>
#include <vector>

#include "formats/document.h"
#include "formats/pdf/drawn_forms.h"

namespace quoin::pdf {

/// Items of a page's own drawing that follow each other on one layer.
struct OwnRun {
  Layer layer = Layer::mark;
  int recorded = 0;             ///< page of the recording, unless it is line work
  std::span<const Item> lines;  ///< of the document: line work to be written in a spot colour
};

/// What the pages of one document draw themselves (marks, slugs, whole pages of a guide), recorded
/// so that the order of drawing and the layers are both kept. The document must outlive it.
struct OwnDrawings {
  PageRecorder::Recording recording;
  std::vector<std::vector<OwnRun>> of_page;  ///< for each page of the document
};

[[nodiscard]] OwnDrawings record_own(const Document& document, PictureShelf& shelf);

}  // namespace quoin::pdf
