#include "formats/pdf/recorded_pages.h"

#include <stdexcept>

#include "formats/pdf/numbers.h"
#include "formats/pdf/shared_values.h"

namespace quoin::pdf {
namespace {

/// Up to here the memory that sharing equal values saves is not worth the time it takes.
constexpr int few_pages = 1000;

/// Turns a page's content into a form, in place.
Object as_form(Object page, Object matrix) {
  Object stream = page.getKey("/Contents");
  if (!stream.isStream()) throw std::logic_error("a recorded page without content");
  Object facts = stream.getDict();
  facts.replaceKey("/Type", name("XObject"));
  facts.replaceKey("/Subtype", name("Form"));
  facts.replaceKey("/BBox", page.getKey("/MediaBox"));
  facts.replaceKey("/Matrix", matrix);
  facts.replaceKey("/Resources", page.getKey("/Resources"));
  return stream;
}

/// Leaves the file without pages.
void let_pages_go(QPDF& file, const std::vector<Object>& pages) {
  for (const Object& page : pages) file.replaceObject(page.getObjGen(), Object::newNull());
  Object tree = file.getRoot().getKey("/Pages");
  tree.replaceKey("/Kids", Object::newArray());
  tree.replaceKey("/Count", Object::newInteger(0));
  file.updateAllPagesCache();
}

}  // namespace

std::vector<Object> recorded_pages(QPDF& file, const PageRecorder::Recording& recording) {
  file.setSuppressWarnings(true);  // they are asked for at the end
  if (recording.pages == 0) {
    file.emptyPDF();
    return {};
  }
  file.processMemoryFile("recording", recording.pdf.data(), recording.pdf.size());
  const std::vector<Object> pages = file.getAllPages();
  if (static_cast<int>(pages.size()) != recording.pages) {
    throw std::logic_error("a recording has other pages than were drawn");
  }
  const std::string scale = ratio_text(points_per_mm / PageRecorder::units_per_mm);
  const Object matrix = Object::parse("[" + scale + " 0 0 " + scale + " 0 0]");
  SharedValues alike;
  std::vector<Object> forms;
  forms.reserve(pages.size());
  for (const Object& page : pages) {
    forms.push_back(as_form(page, matrix));
    if (recording.pages > few_pages) alike.within_form(forms.back());
  }
  let_pages_go(file, pages);
  return forms;
}

}  // namespace quoin::pdf
