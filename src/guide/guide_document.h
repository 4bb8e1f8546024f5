#pragma once
#include "formats/document.h"
#include "guide/guide.h"

namespace quoin::guide {

/// The guide on its pages, as a document for the PDF writer: the cover with a list of the chapters,
/// then the chapters, each page with a foot that has the game's title and the page's number.
///
/// Texts are set already, by the typesetter given, in whose thread the pages must be recorded.
/// Placed figures count the symbols that the guide's maker counted. What is printed beside the
/// pages' own words is art: everything lies on the layer of that name.
[[nodiscard]] Document document_of(const Guide& guide, Typesetter& typesetter);

}  // namespace quoin::guide
