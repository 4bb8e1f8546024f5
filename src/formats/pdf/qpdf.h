#pragma once
// The one place that includes the PDF library.
#define POINTERHOLDER_TRANSITION 4
#include <qpdf/Buffer.hh>
#include <qpdf/Pipeline.hh>
#include <qpdf/QPDF.hh>
#include <qpdf/QPDFObjectHandle.hh>
#include <qpdf/QPDFPageLabelDocumentHelper.hh>
#include <qpdf/QPDFWriter.hh>

#include <set>
#include <string>
#include <vector>

namespace quoin::pdf {

using Object = QPDFObjectHandle;

[[nodiscard]] inline Object name(const std::string& text) { return Object::newName("/" + text); }

/// Text for a reader, from UTF-8: PDFDocEncoding or UTF-16 as needed.
[[nodiscard]] inline Object words(const std::string& text) {
  return Object::newUnicodeString(text);
}

/// Throws `std::logic_error` when the library met anything but the one fault that is known and
/// harmless: cairo names an image twice that a page shows twice.
void expect_no_surprises(QPDF& file);

}  // namespace quoin::pdf
