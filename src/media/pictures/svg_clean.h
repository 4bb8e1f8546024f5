#pragma once
#include "media/pictures/svg_tree.h"

namespace quoin::pictures {

/// Takes out of the tree what cannot be printed (scripts, event handlers, animations, web pages
/// inside the drawing, elements that the renderer does not know) and what depends on the reader
/// (systemLanguage: English is chosen), and tones down effects that ask for endless work. Each kind
/// of thing is said once, as `picture.svg-taken-out` or `picture.svg-toned-down`.
void clean(const SourceFile& file, SvgElement& root, Diagnostics& remarks);

/// The length of the diagonal of the root's viewBox, or of its width and height, in user units; 0
/// when neither is given in numbers.
[[nodiscard]] double diagonal_of(const SvgElement& root);

/// The numbers that a text starts with, separated by blanks or commas: "0 0 24 24".
[[nodiscard]] std::vector<double> numbers_in(std::string_view text);

}  // namespace quoin::pictures
