#include "rules/manuscript.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "rules/count.h"
#include "rules/inline_words.h"

namespace quoin::rules {
namespace {

/// A heading's name in links, as is usual: lower case, words joined by '-'.
std::string anchor_of(const std::string& heading) {
  std::string anchor;
  for (const char c : heading) {
    const auto byte = static_cast<unsigned char>(c);
    if (std::isalnum(byte) != 0 || byte >= 0x80) {
      anchor += static_cast<char>(byte < 0x80 ? std::tolower(byte) : byte);
    } else if (c == ' ' || c == '-') {
      anchor += '-';
    }
  }
  return anchor;
}

std::string plain_text(const std::vector<Span>& spans) {
  std::string text;
  for (const Span& span : spans) {
    text += span.kind == SpanKind::soft_break || span.kind == SpanKind::line_break
                ? std::string(" ")
                : span.text + plain_text(span.spans);
  }
  return text;
}

void collect_anchors(const std::vector<Block>& blocks, std::set<std::string>& anchors) {
  for (const Block& block : blocks) {
    if (block.kind == BlockKind::heading) anchors.insert(anchor_of(plain_text(block.spans)));
    collect_anchors(block.blocks, anchors);
  }
}

bool is_blank(const TextRun& run) {
  return !run.symbol && run.text.find_first_not_of(" \t\n\xC2\xA0") == std::string::npos;
}

int words_in(std::string_view text) {
  int words = 0;
  bool inside = false;
  for (const char c : text) {
    const bool blank = c == ' ' || c == '\n' || c == '\t';
    words += !blank && !inside ? 1 : 0;
    inside = !blank;
  }
  return words;
}

/// Turns the tree of a text into parts.
class PartMaker {
 public:
  PartMaker(InlineWords& words, const SourceText& source, const std::vector<std::string>& credits)
      : words_(words), source_(source), credits_(credits) {}

  std::vector<Part> parts_of(const std::vector<Block>& blocks) {
    std::vector<Part> parts;
    for (const Block& block : blocks) add(block, parts);
    return parts;
  }

 private:
  [[nodiscard]] Origin origin_of(const Block& block) const {
    return block.offset == std::string::npos ? Origin{source_.file()} : source_.place(block.offset);
  }

  void add(const Block& block, std::vector<Part>& to) {
    Part part;
    part.origin = origin_of(block);
    switch (block.kind) {
      case BlockKind::heading:
        part.kind = PartKind::heading;
        part.level = block.level;
        part.words = words_of(block.spans, part.origin);
        break;
      case BlockKind::paragraph:
        return add_paragraph(block, std::move(part), to);
      case BlockKind::quote:
        part.kind = PartKind::quote;
        part.parts = parts_of(block.blocks);
        break;
      case BlockKind::bullet_list:
      case BlockKind::numbered_list:
        add_items(block, part);
        break;
      case BlockKind::rule:
        part.kind = PartKind::rule;
        break;
      case BlockKind::code:
        part.kind = PartKind::code;
        part.words.runs.push_back({code_of(block.spans), false, false, nullptr});
        break;
      case BlockKind::html:
        words_.report_html(block.spans);
        return;
      case BlockKind::table:
        add_rows(block, part);
        break;
      default:
        for (const Block& inner : block.blocks) add(inner, to);
        return;
    }
    to.push_back(std::move(part));
  }

  static std::string code_of(const std::vector<Span>& spans) {
    std::string code = plain_text(spans);
    while (code.ends_with('\n')) code.pop_back();
    return code;
  }

  Words words_of(const std::vector<Span>& spans, const Origin& origin) {
    return {words_.runs_of(spans), origin};
  }

  /// A picture, cards or the credits alone in a paragraph stand by themselves.
  void add_paragraph(const Block& block, Part part, std::vector<Part>& to) {
    part.tight = block.tight;
    if (const Span* picture = only_picture(block.spans)) {
      part.kind = PartKind::picture;
      part.picture = words_.picture_of(*picture);
      if (!picture->title.empty()) {
        part.words = {{{picture->title, false, false, nullptr}}, part.origin};
      }
      if (part.picture) to.push_back(std::move(part));
      return;
    }
    if (block.spans.size() == 1 && block.spans.front().text == "{credits}") {
      part.kind = PartKind::credits;
      part.lines = credits_;
      if (!part.lines.empty()) to.push_back(std::move(part));
      return;
    }
    part.words = words_of(block.spans, part.origin);
    const std::vector<TextRun>& runs = part.words.runs;
    for (const TextRun& run : runs) {
      if (is_blank(run)) continue;
      const std::optional<int> card = words_.card_in(run);
      if (!card) {
        part.cards.clear();
        break;
      }
      part.cards.push_back(*card);
    }
    if (!part.cards.empty()) part.kind = PartKind::cards;
    const bool all_blank = std::all_of(runs.begin(), runs.end(), is_blank);
    if (!all_blank) to.push_back(std::move(part));
  }

  static const Span* only_picture(const std::vector<Span>& spans) {
    const Span* only = nullptr;
    for (const Span& span : spans) {
      if (span.kind == SpanKind::soft_break) continue;
      if (span.kind != SpanKind::picture || only != nullptr) return nullptr;
      only = &span;
    }
    return only;
  }

  void add_items(const Block& list, Part& part) {
    part.kind = PartKind::list;
    part.tight = list.tight;
    int number = static_cast<int>(std::min(list.first_number, 999'999'999U));
    for (const Block& each : list.blocks) {
      Part item;
      item.kind = PartKind::item;
      item.origin = origin_of(each);
      item.tight = list.tight;
      if (list.kind == BlockKind::numbered_list) item.number = number++;
      item.parts = parts_of(each.blocks);
      part.parts.push_back(std::move(item));
    }
  }

  void add_rows(const Block& table, Part& part) {
    part.kind = PartKind::table;
    for (const Block& row : table.blocks) {
      std::vector<Words>& cells = part.rows.emplace_back();
      for (const Block& cell : row.blocks) {
        cells.push_back(words_of(cell.spans, origin_of(cell)));
        if (part.rows.size() == 1) part.aligns.push_back(cell.align);
      }
    }
  }

  InlineWords& words_;
  const SourceText& source_;
  const std::vector<std::string>& credits_;
};

Diagnostic too_deep(const SourceText& source, std::size_t at) {
  return Diagnostic(
             Id::rules_too_deep, source.place(at),
             fmt::format("lists or quotes lie more than {} deep in each other", deepest_blocks / 2))
      .hint("use headings for the outermost of them");
}

Diagnostic too_long(const SourceText& source) {
  return Diagnostic(Id::rules_too_large, {source.file()},
                    fmt::format("the rules have {} characters; {} can be set", source.text().size(),
                                longest_rules))
      .hint("shorten them");
}

}  // namespace

Checked<Manuscript> read_manuscript(const pieces::Studio& studio, const game::RulesWishes& wishes,
                                    const std::vector<std::string>& credits) {
  Checked<Manuscript> made;
  std::string_view text = *wishes.text;
  if (text.starts_with("\xEF\xBB\xBF")) text.remove_prefix(3);
  const SourceText source(text, wishes.file);
  if (text.size() > longest_rules) {
    made.found.push_back(too_long(source));
    return made;
  }
  const Markdown markdown = read_markdown(source);
  if (markdown.too_deep) made.found.push_back(too_deep(source, markdown.too_deep_at));
  std::set<std::string> anchors;
  collect_anchors(markdown.blocks, anchors);
  InlineWords words(studio, source, anchors, made.value, made.found);
  made.value.parts = PartMaker(words, source, credits).parts_of(markdown.blocks);
  made.value.words = words_in(text);
  if (made.value.parts.empty() && !any_errors(made.found)) {
    made.found.push_back(Diagnostic(Id::rules_empty, {wishes.file}, "there are no words in it")
                             .hint("write the rules, or delete the file"));
  }
  return made;
}

}  // namespace quoin::rules
