#pragma once
#include <memory>
#include <string>
#include <vector>

#include "media/text/font_stock.h"
#include "media/text/set_text.h"

namespace quoin {

/// Which real face serves a run. Nothing is ever slanted or thickened by us.
struct FaceChoice {
  int weight = 400;
  bool italic = false;
  std::string missing;  ///< "bold italic" when there is no such face and the regular one serves
};
[[nodiscard]] FaceChoice choose_face(const std::vector<Face>& faces, const TextStyle& style,
                                     const TextRun& run);

/// A block made ready for pango: one text, and the stretches of it that differ.
struct Composition {
  struct Stretch {
    std::size_t begin = 0, end = 0;  ///< bytes of `text`
    FaceChoice face;
    std::shared_ptr<const InlineSymbol> symbol;
  };
  std::string text;  ///< UTF-8; a symbol is one U+FFFC
  std::vector<Stretch> stretches;
  std::string family;
  bool small_capitals = false;
};

/// Puts U+00AD at the byte offsets `places` (ascending) and moves the stretches along.
[[nodiscard]] Composition with_soft_hyphens(const Composition& from,
                                            const std::vector<std::size_t>& places);

/// A layout of the whole composition at one type size, broken into lines.
struct Broken {
  ObjectPtr<PangoLayout> layout;
  Size needed;
  Mm first_base_line;          ///< from the top of the text
  std::vector<Mm> base_lines;  ///< of each line, from the top of the text
  bool broke_inside_words = false;
};

/// Breaks the composition into lines of `block.box.width` at `type_size`.
///
/// Base lines are `leading` × `type_size` apart, exactly, plus the paragraph gap between
/// paragraphs. The top of the text is the asked face's ascent above the first base line, or the top
/// of the tallest symbol in that line when this is higher; the bottom is the face's descent below
/// the last base line. Letters of other families never move a line.
[[nodiscard]] Broken break_lines(PangoContext* context, const Composition& composition,
                                 const TextBlock& block, Mm type_size);

}  // namespace quoin
