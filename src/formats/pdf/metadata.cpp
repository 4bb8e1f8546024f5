#include "formats/pdf/metadata.h"

#include <fmt/format.h>

#include <algorithm>

#include "formats/clean_text.h"

namespace quoin::pdf {
namespace {

/// <ns:key>..</ns:key> about `pattern` with the text in place of {}; nothing for an empty text.
std::string property(std::string_view key, std::string_view before, std::string_view text,
                     std::string_view after) {
  if (text.empty()) return {};
  return fmt::format("<{0}>{1}{2}{3}</{0}>\n", key, before, escaped_for_xml(text), after);
}

}  // namespace

std::string xmp_packet(const Document& document) {
  constexpr std::string_view alternatives = R"(<rdf:Alt><rdf:li xml:lang="x-default">)";
  constexpr std::string_view alternatives_end = "</rdf:li></rdf:Alt>";
  std::string packet =
      "<?xpacket begin=\"\xEF\xBB\xBF\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n"
      "<x:xmpmeta xmlns:x=\"adobe:ns:meta/\">\n"
      "<rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\">\n"
      "<rdf:Description rdf:about=\"\" xmlns:dc=\"http://purl.org/dc/elements/1.1/\""
      " xmlns:xmp=\"http://ns.adobe.com/xap/1.0/\""
      " xmlns:pdf=\"http://ns.adobe.com/pdf/1.3/\">\n"
      "<dc:format>application/pdf</dc:format>\n";
  packet += property("dc:title", alternatives, document.title, alternatives_end);
  packet += property("dc:creator", "<rdf:Seq><rdf:li>", document.author, "</rdf:li></rdf:Seq>");
  packet += property("dc:description", alternatives, document.subject, alternatives_end);
  packet += property("dc:language", "<rdf:Bag><rdf:li>", document.language, "</rdf:li></rdf:Bag>");
  packet += property("xmp:CreatorTool", "", document.creator, "");
  packet += property("pdf:Producer", "", document.creator, "");
  return packet + "</rdf:Description>\n</rdf:RDF>\n</x:xmpmeta>\n<?xpacket end=\"r\"?>\n";
}

Object information(const Document& document) {
  Object info = Object::newDictionary();
  const auto say = [&](const char* key, const std::string& text) {
    if (!text.empty()) info.replaceKey(key, words(clean_text(text)));
  };
  say("/Title", document.title);
  say("/Author", document.author);
  say("/Subject", document.subject);
  say("/Creator", document.creator);
  say("/Producer", document.creator);
  return info;
}

Object viewer_preferences(Flip duplex) {
  Object wishes = Object::newDictionary();
  wishes.replaceKey("/PrintScaling", name("None"));
  wishes.replaceKey("/DisplayDocTitle", Object::newBool(true));
  wishes.replaceKey("/PickTrayByPDFSize", Object::newBool(true));
  switch (duplex) {
    case Flip::none:
      wishes.replaceKey("/Duplex", name("Simplex"));
      break;
    case Flip::long_edge:
      wishes.replaceKey("/Duplex", name("DuplexFlipLongEdge"));
      break;
    case Flip::short_edge:
      wishes.replaceKey("/Duplex", name("DuplexFlipShortEdge"));
      break;
  }
  return wishes;
}

Object page_labels(const std::vector<Page>& pages) {
  const bool any =
      std::any_of(pages.begin(), pages.end(), [](const Page& page) { return !page.label.empty(); });
  if (!any) return Object::newNull();
  Object numbers = Object::newArray();
  long long index = 0;
  for (const Page& page : pages) {
    Object label = Object::newDictionary();
    if (page.label.empty()) {
      label.replaceKey("/S", name("D"));
      label.replaceKey("/St", Object::newInteger(index + 1));
    } else {
      label.replaceKey("/P", words(clean_text(page.label)));
    }
    numbers.appendItem(Object::newInteger(index++));
    numbers.appendItem(label);
  }
  Object tree = Object::newDictionary();
  tree.replaceKey("/Nums", numbers);
  return tree;
}

}  // namespace quoin::pdf
