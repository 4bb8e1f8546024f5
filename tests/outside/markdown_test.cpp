// Reads the examples of the CommonMark specification 0.30 (https://spec.commonmark.org/0.30/, the
// npm package commonmark-spec) and writes what was read as HTML, as the specification shows it.
#include "rules/markdown.h"

#include <fmt/format.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

#include "base/world.h"

namespace quoin::outside {
namespace {

using rules::Block;
using rules::BlockKind;
using rules::Span;
using rules::SpanKind;

struct SpecExample {
  int number = 0;
  std::string markdown, html;
};

std::string with_tabs(std::string text) {
  const std::string arrow = "→";
  for (std::size_t at = text.find(arrow); at != std::string::npos; at = text.find(arrow, at)) {
    text.replace(at, arrow.size(), "\t");
  }
  return text;
}

std::vector<SpecExample> spec_examples() {
  const ReadAnswer read =
      real_world(QUOIN_NODE_PACKAGES "/commonmark-spec")->read("spec.txt", std::size_t{4} << 20);
  if (!read.ok()) throw std::runtime_error("npm's commonmark-spec is not in build/node");
  const std::string fence(32, '`');
  const std::string begin = fence + " example\n", end = fence + "\n";
  std::vector<SpecExample> examples;
  std::size_t at = 0;
  while ((at = read.bytes->find(begin, at)) != std::string::npos) {
    at += begin.size();
    const std::size_t stop = read.bytes->find(end, at);
    const std::string whole = "\n" + read.bytes->substr(at, stop - at);
    const std::size_t dot = whole.find("\n.\n");
    SpecExample example;
    example.number = static_cast<int>(examples.size()) + 1;
    example.markdown = with_tabs(whole.substr(1, dot));
    example.html = with_tabs(whole.substr(dot + 3));
    examples.push_back(std::move(example));
    at = stop;
  }
  return examples;
}

std::string escaped(std::string_view text) {
  std::string html;
  for (const char c : text) {
    switch (c) {
      case '&':
        html += "&amp;";
        break;
      case '<':
        html += "&lt;";
        break;
      case '>':
        html += "&gt;";
        break;
      case '"':
        html += "&quot;";
        break;
      default:
        html += c;
    }
  }
  return html;
}

/// As the examples write addresses: what RFC 3986 does not allow is percent-encoded.
std::string address(std::string_view text) {
  std::string html;
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    const bool safe = byte < 0x80 &&
                      (std::isalnum(byte) != 0 ||
                       std::string_view("-_.+!*'(),%#@?=;:/$~&").find(c) != std::string_view::npos);
    html += safe ? escaped(std::string(1, c)) : fmt::format("%{:02X}", byte);
  }
  return html;
}

std::string plain(const std::vector<Span>& spans) {
  std::string text;
  for (const Span& span : spans) {
    text += span.kind == SpanKind::soft_break ? "\n" : span.text + plain(span.spans);
  }
  return text;
}

std::string title_of(const Span& span) {
  return span.title.empty() ? "" : fmt::format(" title=\"{}\"", escaped(span.title));
}

std::string html_of(const std::vector<Span>& spans) {
  std::string html;
  for (const Span& span : spans) {
    switch (span.kind) {
      case SpanKind::text:
        html += escaped(span.text);
        break;
      case SpanKind::html:
        html += span.text;
        break;
      case SpanKind::code:
        html += "<code>" + escaped(span.text) + "</code>";
        break;
      case SpanKind::emphasis:
        html += "<em>" + html_of(span.spans) + "</em>";
        break;
      case SpanKind::strong:
        html += "<strong>" + html_of(span.spans) + "</strong>";
        break;
      case SpanKind::link:
        html += fmt::format("<a href=\"{}\"{}>{}</a>", address(span.target), title_of(span),
                            html_of(span.spans));
        break;
      case SpanKind::picture:
        html += fmt::format("<img src=\"{}\" alt=\"{}\"{} />", address(span.target),
                            escaped(plain(span.spans)), title_of(span));
        break;
      case SpanKind::line_break:
        html += "<br />\n";
        break;
      case SpanKind::soft_break:
        html += "\n";
        break;
    }
  }
  return html;
}

std::string html_of(const std::vector<Block>& blocks) {
  std::string html;
  for (const Block& block : blocks) {
    const std::string inner = html_of(block.blocks);
    switch (block.kind) {
      case BlockKind::heading:
        html += fmt::format("<h{0}>{1}</h{0}>\n", block.level, html_of(block.spans));
        break;
      case BlockKind::paragraph:
        html += block.tight ? html_of(block.spans) : "<p>" + html_of(block.spans) + "</p>\n";
        break;
      case BlockKind::quote:
        html += "<blockquote>\n" + inner + "</blockquote>\n";
        break;
      case BlockKind::bullet_list:
        html += "<ul>\n" + inner + "</ul>\n";
        break;
      case BlockKind::numbered_list:
        html += block.first_number == 1 ? "<ol>\n"
                                        : fmt::format("<ol start=\"{}\">\n", block.first_number);
        html += inner + "</ol>\n";
        break;
      case BlockKind::item:
        html += "<li>" + inner + "</li>\n";
        break;
      case BlockKind::rule:
        html += "<hr />\n";
        break;
      case BlockKind::code: {
        const std::string language = block.info.substr(0, block.info.find(' '));
        html += "<pre><code" +
                (language.empty() ? "" : " class=\"language-" + escaped(language) + "\"") + ">" +
                escaped(plain(block.spans)) + "</code></pre>\n";
        break;
      }
      case BlockKind::html:
        html += plain(block.spans);
        break;
      default:
        html += inner;
    }
  }
  return html;
}

/// Without the line ends beside the tags of blocks, which mean nothing in HTML.
std::string normal(const std::string& html) {
  static const std::set<std::string> blocks{"p",  "li", "ul", "ol", "blockquote", "hr", "h1",
                                            "h2", "h3", "h4", "h5", "h6",         "pre"};
  std::string out;
  for (std::size_t at = 0; at < html.size();) {
    if (html.compare(at, 5, "<pre>") == 0) {
      const std::size_t end = std::min(html.find("</pre>", at), html.size());
      while (out.ends_with('\n')) out.pop_back();
      out += html.substr(at, end - at);
      at = end;
      continue;
    }
    const std::size_t close = html[at] == '<' ? html.find('>', at) : std::string::npos;
    if (close == std::string::npos) {
      out += html[at++];
      continue;
    }
    const std::string tag = html.substr(at, close + 1 - at);
    std::string name = tag.substr(tag[1] == '/' ? 2 : 1);
    name = name.substr(0, name.find_first_of(" />"));
    at = close + 1;
    if (!blocks.contains(name)) {
      out += tag;
      continue;
    }
    if (!out.ends_with("</code>")) {
      while (out.ends_with('\n')) out.pop_back();
    }
    out += tag;
    while (at < html.size() && html[at] == '\n') ++at;
  }
  while (out.ends_with('\n')) out.pop_back();
  return out;
}

TEST(CommonMark, is_read_as_its_specification_shows) {
  const std::vector<SpecExample> examples = spec_examples();
  ASSERT_EQ(examples.size(), 652U);  // those of version 0.30
  std::vector<int> differ;
  for (const SpecExample& example : examples) {
    const rules::SourceText source(example.markdown, FileName("rules.md"));
    const std::string read = normal(html_of(rules::read_markdown(source).blocks));
    if (read == normal(example.html)) continue;
    differ.push_back(example.number);
    fmt::print("example {}\n{}is read as\n{}\nand not as\n{}\n\n", example.number, example.markdown,
               read, normal(example.html));
  }
  // 171: MD4C 0.4.8 does not count <textarea> among the tags whose HTML goes on over empty lines.
  // HTML is left out of rules with a finding, either way.
  EXPECT_THAT(differ, testing::ElementsAre(171));
}

}  // namespace
}  // namespace quoin::outside
