#include "formats/pdf/metadata.h"

#include <gtest/gtest.h>
#include <libxml/parser.h>
#include <libxml/xpath.h>
#include <libxml/xpathInternals.h>

#include <memory>

#include "formats/clean_text.h"

namespace quoin::pdf {
namespace {

Document tidal() {
  Document document;
  document.title = "Rock & <Pool> \"II\"";
  document.author = "Åsa Ødegård";
  document.language = "nb";
  document.creator = "Quoin 0.1";
  return document;
}

/// The text that an XPath finds in the packet, read by an independent XML parser.
std::string found_in(const std::string& packet, const char* path) {
  const std::unique_ptr<xmlDoc, decltype(&xmlFreeDoc)> tree(
      xmlReadMemory(packet.data(), static_cast<int>(packet.size()), "packet", "UTF-8",
                    XML_PARSE_NOERROR | XML_PARSE_NONET),
      xmlFreeDoc);
  if (!tree) return "not well formed";
  const std::unique_ptr<xmlXPathContext, decltype(&xmlXPathFreeContext)> context(
      xmlXPathNewContext(tree.get()), xmlXPathFreeContext);
  const auto space = [&](const char* prefix, const char* uri) {
    xmlXPathRegisterNs(context.get(), reinterpret_cast<const xmlChar*>(prefix),
                       reinterpret_cast<const xmlChar*>(uri));
  };
  space("dc", "http://purl.org/dc/elements/1.1/");
  space("rdf", "http://www.w3.org/1999/02/22-rdf-syntax-ns#");
  space("xmp", "http://ns.adobe.com/xap/1.0/");
  const std::unique_ptr<xmlXPathObject, decltype(&xmlXPathFreeObject)> answer(
      xmlXPathEvalExpression(reinterpret_cast<const xmlChar*>(path), context.get()),
      xmlXPathFreeObject);
  const std::unique_ptr<xmlChar, decltype(xmlFree)> text(xmlXPathCastToString(answer.get()),
                                                         xmlFree);
  return reinterpret_cast<const char*>(text.get());
}

TEST(XmpPacket, holds_what_the_document_says_as_well_formed_xml) {
  const std::string packet = xmp_packet(tidal());
  EXPECT_EQ(found_in(packet, "string(//dc:title/rdf:Alt/rdf:li)"), "Rock & <Pool> \"II\"");
  EXPECT_EQ(found_in(packet, "string(//dc:creator/rdf:Seq/rdf:li)"), "Åsa Ødegård");
  EXPECT_EQ(found_in(packet, "string(//dc:language/rdf:Bag/rdf:li)"), "nb");
  EXPECT_EQ(found_in(packet, "string(//xmp:CreatorTool)"), "Quoin 0.1");
}

TEST(XmpPacket, leaves_out_what_the_document_does_not_say) {
  EXPECT_EQ(xmp_packet(tidal()).find("dc:description"), std::string::npos);
  EXPECT_EQ(xmp_packet(Document{}).find("dc:title"), std::string::npos);
}

TEST(XmpPacket, has_no_date) { EXPECT_EQ(xmp_packet(tidal()).find("Date"), std::string::npos); }

TEST(XmpPacket, stays_well_formed_with_stray_bytes_in_a_title) {
  Document document = tidal();
  document.title = "a\xff\x01\xed\xa0\x80z";
  EXPECT_EQ(found_in(xmp_packet(document), "string(//dc:title/rdf:Alt/rdf:li)"),
            "a\xef\xbf\xbd \xef\xbf\xbd\xef\xbf\xbd\xef\xbf\xbdz");
}

TEST(CleanText, keeps_every_well_formed_character) {
  const std::string text = "tab\tand \xc2\xa0 \xe2\x80\x94 \xf0\x9f\x82\xa1 \xf4\x8f\xbf\xbd";
  EXPECT_EQ(clean_text(text), text);
}

TEST(CleanText, replaces_overlong_cut_off_and_too_large_characters) {
  const std::string stray = "\xef\xbf\xbd";
  EXPECT_EQ(clean_text("\xc0\xaf"), stray + stray);
  EXPECT_EQ(clean_text("\xe2\x80"), stray + stray);
  EXPECT_EQ(clean_text("\xf4\x90\x80\x80"), stray + stray + stray + stray);
  EXPECT_EQ(clean_text("\xef\xbf\xbf"), stray);
}

TEST(Information, says_the_same_as_the_packet_and_has_no_date) {
  Object info = information(tidal());
  EXPECT_EQ(info.getKey("/Title").getUTF8Value(), "Rock & <Pool> \"II\"");
  EXPECT_EQ(info.getKey("/Author").getUTF8Value(), "Åsa Ødegård");
  EXPECT_EQ(info.getKey("/Producer").getUTF8Value(), "Quoin 0.1");
  EXPECT_FALSE(info.hasKey("/CreationDate"));
  EXPECT_FALSE(info.hasKey("/Subject"));
}

TEST(ViewerPreferences, ask_for_true_size_and_the_right_flip) {
  EXPECT_EQ(viewer_preferences(Flip::none).getKey("/Duplex").getName(), "/Simplex");
  EXPECT_EQ(viewer_preferences(Flip::long_edge).getKey("/Duplex").getName(), "/DuplexFlipLongEdge");
  EXPECT_EQ(viewer_preferences(Flip::short_edge).getKey("/Duplex").getName(),
            "/DuplexFlipShortEdge");
  EXPECT_EQ(viewer_preferences(Flip::none).getKey("/PrintScaling").getName(), "/None");
}

TEST(PageLabels, are_absent_when_no_page_has_one) {
  EXPECT_TRUE(page_labels(std::vector<Page>(3)).isNull());
}

TEST(PageLabels, number_the_pages_that_have_none) {
  std::vector<Page> pages(2);
  pages[1].label = "back 1";
  EXPECT_EQ(page_labels(pages).unparse(),
            "<< /Nums [ 0 << /S /D /St 1 >> 1 << /P (back 1) >> ] >>");
}

}  // namespace
}  // namespace quoin::pdf
