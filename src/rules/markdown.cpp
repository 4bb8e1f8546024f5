#include "rules/markdown.h"

#include <md4c-html.h>
#include <md4c.h>

#include <string_view>

namespace quoin::rules {
namespace {

constexpr std::string_view no_character = "\xEF\xBF\xBD";  // U+FFFD

void replace_all(std::string& text, std::string_view what, std::string_view by) {
  for (std::size_t at = text.find(what); at != std::string::npos;
       at = text.find(what, at + by.size())) {
    text.replace(at, what.size(), by);
  }
}

/// "&copy;" -> "©"; what names no character stays as it is.
std::string character_of(std::string_view entity) {
  std::string html;
  const auto add = [](const MD_CHAR* text, MD_SIZE size, void* to) {
    static_cast<std::string*>(to)->append(text, size);
  };
  md_html(entity.data(), static_cast<MD_SIZE>(entity.size()), add, &html, 0, 0);
  if (html.starts_with("<p>")) html.erase(0, 3);
  if (const std::size_t end = html.find("</p>"); end != std::string::npos) html.resize(end);
  for (const auto& [written, meant] :
       {std::pair{"&lt;", "<"}, {"&gt;", ">"}, {"&quot;", "\""}, {"&amp;", "&"}}) {
    replace_all(html, written, meant);
  }
  return html;
}

std::string text_of(const MD_ATTRIBUTE& attribute) {
  std::string text;
  if (attribute.text == nullptr) return text;
  for (int i = 0; attribute.substr_offsets[i] < attribute.size; ++i) {
    const MD_OFFSET from = attribute.substr_offsets[i], to = attribute.substr_offsets[i + 1];
    const std::string_view part(attribute.text + from, to - from);
    switch (attribute.substr_types[i]) {
      case MD_TEXT_ENTITY:
        text += character_of(part);
        break;
      case MD_TEXT_NULLCHAR:
        text += no_character;
        break;
      default:
        text += part;
    }
  }
  return text;
}

CellAlign align_of(MD_ALIGN align) {
  if (align == MD_ALIGN_LEFT) return CellAlign::left;
  if (align == MD_ALIGN_RIGHT) return CellAlign::right;
  return align == MD_ALIGN_CENTER ? CellAlign::centre : CellAlign::usual;
}

/// Takes the blanks off both ends of a heading: MD4C leaves tabs there.
void trim(std::vector<Span>& spans) {
  constexpr std::string_view blanks = " \t";
  if (!spans.empty() && spans.back().kind == SpanKind::text) {
    std::string& text = spans.back().text;
    text.resize(text.find_last_not_of(blanks) + 1);
  }
  if (spans.empty() || spans.front().kind != SpanKind::text) return;
  Span& first = spans.front();
  const std::size_t from = std::min(first.text.find_first_not_of(blanks), first.text.size());
  first.text.erase(0, from);
  for (Stretch& stretch : first.stretches) {
    const std::size_t off = stretch.at < from ? from - stretch.at : 0;
    if (stretch.offset != std::string::npos) stretch.offset += off;
    stretch.at = stretch.at + off - from;
  }
}

bool holds_spans(BlockKind kind) {
  return kind == BlockKind::heading || kind == BlockKind::paragraph || kind == BlockKind::code ||
         kind == BlockKind::html || kind == BlockKind::cell;
}

/// Builds the tree while the parser goes through the text.
class TreeBuilder {
 public:
  explicit TreeBuilder(const SourceText& source) : source_(source) {}

  [[nodiscard]] Markdown take() { return std::move(made_); }

  void enter(MD_BLOCKTYPE type, void* detail) {
    if (type == MD_BLOCK_DOC || type == MD_BLOCK_THEAD || type == MD_BLOCK_TBODY) {
      in_head_ = type == MD_BLOCK_THEAD;
      return;
    }
    implicit_ = nullptr;
    if (blocks_.size() >= deepest_blocks) {
      ++left_out_blocks_;
      note_depth();
      return;
    }
    std::vector<Block>& in = blocks_.empty() ? made_.blocks : blocks_.back()->blocks;
    blocks_.push_back(&in.emplace_back(block_of(type, detail)));
  }

  void leave(MD_BLOCKTYPE type) {
    if (type == MD_BLOCK_DOC || type == MD_BLOCK_THEAD || type == MD_BLOCK_TBODY) {
      in_head_ = false;
      return;
    }
    implicit_ = nullptr;
    if (left_out_blocks_ > 0) {
      --left_out_blocks_;
    } else {
      if (type == MD_BLOCK_H) trim(blocks_.back()->spans);
      blocks_.pop_back();
    }
  }

  void enter(MD_SPANTYPE type, void* detail) {
    if (spans_.size() >= deepest_spans) {
      ++left_out_spans_;
      note_depth();
      return;
    }
    Span span = span_of(type, detail);
    spans_.push_back(&here().emplace_back(std::move(span)));
  }

  void leave(MD_SPANTYPE) {
    if (left_out_spans_ > 0) {
      --left_out_spans_;
    } else {
      spans_.pop_back();
    }
  }

  void text(MD_TEXTTYPE type, std::string_view words) {
    const std::size_t offset = source_.offset_of(words.data());
    if (offset != std::string::npos && (last_ == std::string::npos || offset > last_)) {
      last_ = offset;
    }
    switch (type) {
      case MD_TEXT_BR:
      case MD_TEXT_SOFTBR:
        here().emplace_back().kind =
            type == MD_TEXT_BR ? SpanKind::line_break : SpanKind::soft_break;
        return;
      case MD_TEXT_HTML:
        add(SpanKind::html, words, offset, words.size(), Stretch::Meant::as_written);
        return;
      case MD_TEXT_ENTITY:
        add(SpanKind::text, character_of(words), offset, words.size(), Stretch::Meant::literally);
        return;
      case MD_TEXT_NULLCHAR:
        add(SpanKind::text, no_character, offset, 1, Stretch::Meant::literally);
        return;
      default:
        add(in_code() ? SpanKind::code : SpanKind::text, words, offset, words.size(),
            is_escaped(offset) ? Stretch::Meant::literally : Stretch::Meant::as_written);
    }
  }

 private:
  [[nodiscard]] Block block_of(MD_BLOCKTYPE type, void* detail) const {
    Block block;
    switch (type) {
      case MD_BLOCK_QUOTE:
        block.kind = BlockKind::quote;
        break;
      case MD_BLOCK_UL:
        block.kind = BlockKind::bullet_list;
        block.tight = static_cast<MD_BLOCK_UL_DETAIL*>(detail)->is_tight != 0;
        break;
      case MD_BLOCK_OL:
        block.kind = BlockKind::numbered_list;
        block.tight = static_cast<MD_BLOCK_OL_DETAIL*>(detail)->is_tight != 0;
        block.first_number = static_cast<MD_BLOCK_OL_DETAIL*>(detail)->start;
        break;
      case MD_BLOCK_LI:
        block.kind = BlockKind::item;
        break;
      case MD_BLOCK_HR:
        block.kind = BlockKind::rule;
        break;
      case MD_BLOCK_H:
        block.kind = BlockKind::heading;
        block.level = static_cast<int>(static_cast<MD_BLOCK_H_DETAIL*>(detail)->level);
        break;
      case MD_BLOCK_CODE:
        block.kind = BlockKind::code;
        block.info = text_of(static_cast<MD_BLOCK_CODE_DETAIL*>(detail)->info);
        break;
      case MD_BLOCK_HTML:
        block.kind = BlockKind::html;
        break;
      case MD_BLOCK_TABLE:
        block.kind = BlockKind::table;
        break;
      case MD_BLOCK_TR:
        block.kind = BlockKind::row;
        block.head = in_head_;
        break;
      case MD_BLOCK_TH:
      case MD_BLOCK_TD:
        block.kind = BlockKind::cell;
        block.head = type == MD_BLOCK_TH;
        block.align = align_of(static_cast<MD_BLOCK_TD_DETAIL*>(detail)->align);
        break;
      default:
        block.kind = BlockKind::paragraph;
    }
    return block;
  }

  [[nodiscard]] Span span_of(MD_SPANTYPE type, void* detail) const {
    Span span;
    switch (type) {
      case MD_SPAN_EM:
        span.kind = SpanKind::emphasis;
        break;
      case MD_SPAN_A: {
        const auto& link = *static_cast<MD_SPAN_A_DETAIL*>(detail);
        span.kind = SpanKind::link;
        span.target = text_of(link.href);
        span.title = text_of(link.title);
        span.offset = source_.offset_of(link.href.text);
        break;
      }
      case MD_SPAN_IMG: {
        const auto& picture = *static_cast<MD_SPAN_IMG_DETAIL*>(detail);
        span.kind = SpanKind::picture;
        span.target = text_of(picture.src);
        span.title = text_of(picture.title);
        span.offset = source_.offset_of(picture.src.text);
        break;
      }
      case MD_SPAN_CODE:
        span.kind = SpanKind::code;
        break;
      default:
        span.kind = SpanKind::strong;
    }
    if (span.offset == std::string::npos) span.offset = last_;
    return span;
  }

  /// Where spans go now. In a tight list words stand in no paragraph of their own: one is made.
  [[nodiscard]] std::vector<Span>& here() {
    if (!spans_.empty()) return spans_.back()->spans;
    if (!blocks_.empty() && holds_spans(blocks_.back()->kind)) return blocks_.back()->spans;
    if (implicit_ == nullptr) {
      std::vector<Block>& in = blocks_.empty() ? made_.blocks : blocks_.back()->blocks;
      implicit_ = &in.emplace_back();
      implicit_->tight = true;
    }
    return implicit_->spans;
  }

  [[nodiscard]] bool in_code() const {
    const bool block = !blocks_.empty() && blocks_.back()->kind == BlockKind::code;
    return block || (!spans_.empty() && spans_.back()->kind == SpanKind::code);
  }

  [[nodiscard]] bool is_escaped(std::size_t offset) const {
    // A backslash that was words itself was added just before.
    if (offset == std::string::npos || offset == 0 || offset == end_ || in_code()) return false;
    return source_.text()[offset - 1] == '\\';
  }

  /// Adds words; those that go on from the last ones are one span with them.
  void add(SpanKind kind, std::string_view words, std::size_t offset, std::size_t length,
           Stretch::Meant meant) {
    for (Block* block : blocks_) {
      if (block->offset == std::string::npos) block->offset = offset;
    }
    std::vector<Span>& to = here();
    if (implicit_ != nullptr && implicit_->offset == std::string::npos) implicit_->offset = offset;
    // A code span holds its words itself.
    Span* span = nullptr;
    if (kind == SpanKind::code && !spans_.empty() && spans_.back()->kind == SpanKind::code) {
      span = spans_.back();
    } else if (!to.empty() && to.back().kind == kind && to.back().spans.empty()) {
      span = &to.back();
    } else {
      span = &to.emplace_back();
      span->kind = kind;
      span->offset = offset;
    }
    span->stretches.push_back({span->text.size(), words.size(), offset, meant});
    span->text += words;
    end_ = offset == std::string::npos ? offset : offset + length;
  }

  void note_depth() {
    if (made_.too_deep) return;
    made_.too_deep = true;
    made_.too_deep_at = last_ == std::string::npos ? 0 : last_;
  }

  const SourceText& source_;
  Markdown made_;
  std::vector<Block*> blocks_;  // open, outermost first; none grows while one within it is open
  std::vector<Span*> spans_;
  Block* implicit_ = nullptr;
  std::size_t left_out_blocks_ = 0, left_out_spans_ = 0;
  std::size_t last_ = std::string::npos;  // of the last words met
  std::size_t end_ = std::string::npos;   // behind the last words added
  bool in_head_ = false;
};

TreeBuilder& builder(void* data) { return *static_cast<TreeBuilder*>(data); }

}  // namespace

Markdown read_markdown(const SourceText& source) {
  TreeBuilder tree(source);
  MD_PARSER parser{};
  parser.flags = MD_FLAG_TABLES;
  parser.enter_block = [](MD_BLOCKTYPE type, void* detail, void* data) {
    builder(data).enter(type, detail);
    return 0;
  };
  parser.leave_block = [](MD_BLOCKTYPE type, void*, void* data) {
    builder(data).leave(type);
    return 0;
  };
  parser.enter_span = [](MD_SPANTYPE type, void* detail, void* data) {
    builder(data).enter(type, detail);
    return 0;
  };
  parser.leave_span = [](MD_SPANTYPE type, void*, void* data) {
    builder(data).leave(type);
    return 0;
  };
  parser.text = [](MD_TEXTTYPE type, const MD_CHAR* text, MD_SIZE size, void* data) {
    builder(data).text(type, {text, size});
    return 0;
  };
  const std::string_view text = source.text();
  md_parse(text.data(), static_cast<MD_SIZE>(text.size()), &parser, &tree);
  return tree.take();
}

}  // namespace quoin::rules
