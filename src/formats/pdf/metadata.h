#pragma once
#include <string>

#include "formats/document.h"
#include "formats/pdf/qpdf.h"

namespace quoin::pdf {

/// The XMP packet: title, author, subject, language and creating tool; no dates, so that the same
/// game gives the same bytes. Source: ISO 16684-1.
[[nodiscard]] std::string xmp_packet(const Document& document);

/// The document's information dictionary; says the same as the packet.
[[nodiscard]] Object information(const Document& document);

/// How a viewer should show and print the file: at true size, on one or both sides, its title in
/// the window. Source: ISO 32000-1, table 150.
[[nodiscard]] Object viewer_preferences(Flip duplex);

/// The number tree of page labels; null when no page has one. A page without a label gets its
/// number. Source: ISO 32000-1, 12.4.2.
[[nodiscard]] Object page_labels(const std::vector<Page>& pages);

}  // namespace quoin::pdf
