// Reads an SVG's XML with libxml2's event parser, which keeps no tree of its own: entities are
// refused at their declaration, before one is ever expanded, and nothing is fetched.
#include <fmt/format.h>
#include <glib.h>
#include <libxml/SAX2.h>
#include <libxml/parser.h>
#include <libxml/parserInternals.h>

#include <algorithm>
#include <mutex>

#include "media/pictures/limits.h"
#include "media/pictures/svg_tree.h"

namespace quoin::pictures {
namespace {

using namespace std::string_view_literals;

constexpr std::string_view svg_namespace = "http://www.w3.org/2000/svg";
constexpr std::string_view xlink_namespace = "http://www.w3.org/1999/xlink";
constexpr std::string_view xml_namespace = "http://www.w3.org/XML/1998/namespace";
constexpr std::string_view include_namespace = "http://www.w3.org/2001/XInclude";

std::string_view view(const xmlChar* text) {
  return text == nullptr ? ""sv : std::string_view(reinterpret_cast<const char*>(text));
}

/// The name that an attribute keeps; empty when nothing that draws looks at it.
std::string kept_name(std::string_view local, std::string_view prefix, std::string_view uri) {
  if (prefix.empty()) return std::string(local);
  // Many a hand-written file uses xlink: without declaring it.
  if (uri == xlink_namespace || (uri.empty() && prefix == "xlink")) {
    return local == "href" ? "xlink:href" : "";
  }
  if (uri == xml_namespace && (local == "space" || local == "lang")) {
    return "xml:" + std::string(local);
  }
  return {};
}

/// Builds the tree from the parser's events and stops it at the first thing that is refused.
class Builder {
 public:
  explicit Builder(const SourceFile& file) : file_(file) {}

  void start(std::string_view name, std::string_view uri, int attribute_count,
             const xmlChar** attributes) {
    ++depth_;
    if (++tree_.element_count > most_svg_elements) {
      return stop(about(Id::picture_too_large, file_,
                        fmt::format("has more than {} elements", most_svg_elements))
                      .hint("simplify the drawing, or save it as a PNG at 600 px an inch"));
    }
    if (depth_ > deepest_svg) {
      return stop(about(Id::picture_too_large, file_,
                        fmt::format("has elements more than {} deep inside each other, at line {}",
                                    deepest_svg, line()))
                      .hint("ungroup what needs no group"));
    }
    if (depth_ == 1 && !is_svg_root(name, uri)) return;
    if (skipped_from_ != 0) return;
    if (uri != svg_namespace) return skip(name, uri, attribute_count, attributes);
    auto element = std::make_unique<SvgElement>();
    element->name = name;
    element->line = line();
    take_attributes(*element, attribute_count, attributes);
    place(std::move(element));
  }

  void end() {
    if (skipped_from_ == 0 && !open_.empty()) open_.pop_back();
    if (skipped_from_ == depth_) skipped_from_ = 0;
    --depth_;
  }

  void text(std::string_view words) {
    if (skipped_from_ != 0 || open_.empty()) return;
    std::vector<SvgChild>& children = open_.back()->children;
    if (children.empty() || children.back().element != nullptr) children.push_back({});
    children.back().text += words;
  }

  void instruction(std::string_view target) {
    if (target != "xml-stylesheet") return;
    tree_.outer_requests.emplace_back(line(), "a style sheet");
  }

  void refuse_entities() {
    stop(about(Id::picture_svg_entities, file_,
               fmt::format("declares entities in line {}, which are not read", line()))
             .hint("save it again as plain SVG"));
  }

  void complain(const xmlError& error) {
    if (complaint_.empty() && error.level == XML_ERR_FATAL) {
      complaint_ = error.message == nullptr ? "" : error.message;
      complaint_.erase(complaint_.find_last_not_of(" \n") + 1);
      complaint_line_ = error.line;
    }
  }

  void use(xmlParserCtxtPtr parser) { parser_ = parser; }

  Result<SvgTree> finish() {
    if (!refused_.empty()) return refused_;
    if (parser_->wellFormed == 0 || tree_.root == nullptr) {
      if (complaint_.empty()) return damaged(file_, "its XML does not come to an end");
      return damaged(file_, fmt::format("its XML breaks off in line {}", complaint_line_))
          .detail("the reader says: " + complaint_);
    }
    return std::move(tree_);
  }

 private:
  [[nodiscard]] int line() const { return xmlSAX2GetLineNumber(parser_); }

  void stop(Diagnostic why) {
    if (refused_.empty()) refused_.push_back(std::move(why));
    xmlStopParser(parser_);
  }

  bool is_svg_root(std::string_view name, std::string_view uri) {
    if (name == "svg" && uri == svg_namespace) return true;
    if (name == "svg") {
      stop(about(Id::picture_not_a_picture, file_, "does not say that its <svg> is SVG")
               .hint(fmt::format("write <svg xmlns=\"{}\" …>", svg_namespace)));
    } else {
      stop(about(Id::picture_not_a_picture, file_,
                 fmt::format("is no picture: it is XML that starts with <{}>", name))
               .hint("save it as PNG, JPEG, WebP, TIFF or SVG"));
    }
    return false;
  }

  void skip(std::string_view name, std::string_view uri, int attribute_count,
            const xmlChar** attributes) {
    skipped_from_ = depth_;
    if (uri != include_namespace || name != "include") return;
    for (int i = 0; i < attribute_count; ++i) {
      if (view(attributes[5 * i]) == "href") {
        tree_.outer_requests.emplace_back(line(), value_of(attributes + 5 * i));
      }
    }
  }

  static std::string value_of(const xmlChar** attribute) {
    return {reinterpret_cast<const char*>(attribute[3]),
            reinterpret_cast<const char*>(attribute[4])};
  }

  static void take_attributes(SvgElement& element, int count, const xmlChar** attributes) {
    for (int i = 0; i < count; ++i) {
      const xmlChar** a = attributes + 5 * i;  // name, prefix, URI, start and end of the value
      std::string name = kept_name(view(a[0]), view(a[1]), view(a[2]));
      if (!name.empty()) element.attributes.push_back({std::move(name), value_of(a)});
    }
  }

  void place(std::unique_ptr<SvgElement> element) {
    SvgElement* placed = element.get();
    if (open_.empty())
      tree_.root = std::move(element);
    else
      open_.back()->children.push_back({std::move(element), {}});
    open_.push_back(placed);
  }

  const SourceFile& file_;
  xmlParserCtxtPtr parser_ = nullptr;
  SvgTree tree_;
  std::vector<SvgElement*> open_;
  int depth_ = 0;
  int skipped_from_ = 0;  // the depth of the foreign element that is being left out, or 0
  Diagnostics refused_;
  std::string complaint_;
  int complaint_line_ = 0;
};

Builder& builder(void* data) { return *static_cast<Builder*>(data); }

xmlSAXHandler events() {
  xmlSAXHandler sax{};
  sax.initialized = XML_SAX2_MAGIC;
  sax.startElementNs = [](void* data, const xmlChar* name, const xmlChar*, const xmlChar* uri, int,
                          const xmlChar**, int count, int defaulted, const xmlChar** attributes) {
    builder(data).start(view(name), view(uri), count - defaulted, attributes);
  };
  sax.endElementNs = [](void* data, const xmlChar*, const xmlChar*, const xmlChar*) {
    builder(data).end();
  };
  sax.characters = [](void* data, const xmlChar* text, int bytes) {
    builder(data).text({reinterpret_cast<const char*>(text), static_cast<std::size_t>(bytes)});
  };
  sax.cdataBlock = sax.characters;
  sax.ignorableWhitespace = sax.characters;
  sax.processingInstruction = [](void* data, const xmlChar* target, const xmlChar*) {
    builder(data).instruction(view(target));
  };
  sax.entityDecl = [](void* data, const xmlChar*, int, const xmlChar*, const xmlChar*, xmlChar*) {
    builder(data).refuse_entities();
  };
  sax.unparsedEntityDecl = [](void* data, const xmlChar*, const xmlChar*, const xmlChar*,
                              const xmlChar*) { builder(data).refuse_entities(); };
  sax.getEntity = [](void*, const xmlChar* name) { return xmlGetPredefinedEntity(name); };
  sax.serror = [](void* data, xmlErrorPtr error) { builder(data).complain(*error); };
  return sax;
}

/// Whether tags are plain to see in the bytes: encodings in which '<', '=' and quotes are what
/// they are in ASCII.
bool keeps_ascii(std::string_view bytes) {
  const std::string_view head = bytes.substr(0, bytes.find("?>"));
  const std::size_t at = head.find("encoding");
  if (!bytes.starts_with("<?xml") || at == head.npos) return true;
  const std::size_t start = head.find_first_of("\"'", at);
  if (start == head.npos) return false;
  const std::string name(head.substr(start + 1, head.find_first_of("\"'", start + 1) - start - 1));
  for (const char* known : {"utf-8", "utf8", "us-ascii", "ascii", "utf-16"}) {
    if (g_ascii_strcasecmp(name.c_str(), known) == 0) return true;
  }
  return g_ascii_strncasecmp(name.c_str(), "iso-8859-", 9) == 0 ||
         g_ascii_strncasecmp(name.c_str(), "windows-125", 11) == 0;
}

/// The most '=' between one '<' and the next, which no attribute's value can hold: at least as many
/// as any element has attributes. The parser compares each attribute of an element with all
/// others, so that 100,000 of them would keep it busy for a minute.
std::size_t most_attributes(std::string_view text) {
  std::size_t most = 0, here = 0;
  for (const char c : text) {
    if (c == '<')
      here = 0;
    else if (c == '=')
      most = std::max(most, ++here);
  }
  return most;
}

/// The text in UTF-8 (or another encoding that keeps ASCII, told by its declaration).
Result<Bytes> text_of(const SourceFile& file) {
  std::string_view bytes = file.bytes;
  const bool little = bytes.starts_with("\xff\xfe"sv), big = bytes.starts_with("\xfe\xff"sv);
  if (!little && !big) {
    if (bytes.starts_with("\xef\xbb\xbf"sv)) bytes.remove_prefix(3);
    bytes.remove_prefix(std::min(bytes.find_first_not_of(" \t\r\n"), bytes.size()));
    if (!keeps_ascii(bytes)) return unusual(file, "as an SVG in an encoding other than UTF-8");
    return Bytes(bytes);
  }
  gsize written = 0;
  char* text = g_convert(bytes.data() + 2, static_cast<gssize>(bytes.size() - 2), "UTF-8",
                         little ? "UTF-16LE" : "UTF-16BE", nullptr, &written, nullptr);
  if (text == nullptr) return damaged(file, "it is not the UTF-16 that it says it is");
  Bytes result(text, written);
  g_free(text);
  if (result.starts_with("<?xml")) result.erase(0, result.find("?>") + 2);
  return result;
}

Outcome check_bounds(const SourceFile& file, std::string_view text) {
  constexpr std::size_t most = 5000;
  const std::size_t attributes = most_attributes(text);
  if (attributes <= most) return Done{};
  return about(
             Id::picture_too_large, file,
             fmt::format("has an element of {} attributes; {} are read at most", attributes, most))
      .hint("save it again as plain SVG");
}

}  // namespace

Result<SvgTree> read_svg_tree(const SourceFile& file) {
  static std::once_flag once;
  std::call_once(once, [] { xmlInitParser(); });
  if (file.bytes.size() > largest_svg) {
    return about(Id::picture_too_large, file,
                 fmt::format("has {} bytes; an SVG of {} is read at most", file.bytes.size(),
                             largest_svg))
        .hint("simplify the drawing, or save it as a PNG at 600 px an inch");
  }
  const Result<Bytes> text = text_of(file);
  if (!text) return text.why();
  Outcome bounds = check_bounds(file, *text);
  if (!bounds) return std::move(bounds).why();
  Builder builder(file);
  const std::unique_ptr<xmlParserCtxt, decltype(&xmlFreeParserCtxt)> parser(
      xmlCreateMemoryParserCtxt(text->data(), static_cast<int>(text->size())), &xmlFreeParserCtxt);
  if (parser == nullptr) return damaged(file, "there is no XML in it");
  // NOENT gives &amp; in attributes as '&'; there are no other entities to replace.
  xmlCtxtUseOptions(parser.get(), XML_PARSE_NONET | XML_PARSE_NOENT);
  *parser->sax = events();
  parser->userData = &builder;
  builder.use(parser.get());
  xmlParseDocument(parser.get());
  if (parser->myDoc != nullptr) xmlFreeDoc(parser->myDoc);
  parser->myDoc = nullptr;
  return builder.finish();
}

}  // namespace quoin::pictures
