#pragma once
#include <cstddef>
#include <string>
#include <vector>

#include "rules/source_text.h"

namespace quoin::rules {

enum class SpanKind { text, emphasis, strong, code, link, picture, line_break, soft_break, html };

/// A stretch of a span's text that stands in the file as it is.
struct Stretch {
  std::size_t at = 0;      ///< byte of the span's text
  std::size_t length = 0;  ///< bytes of the span's text
  std::size_t offset = 0;  ///< byte of the file
  /// Its first character was written with a backslash, or it is one that stands for itself
  /// (`&amp;`): it begins no symbol and no placeholder.
  enum class Meant { as_written, literally } meant = Meant::as_written;
};

/// Something within a line.
struct Span {
  SpanKind kind = SpanKind::text;
  std::string text;                        ///< of text, code and html
  std::vector<Stretch> stretches;          ///< of `text`, in order
  std::string target, title;               ///< of a link or a picture
  std::vector<Span> spans;                 ///< within emphasis, a link, a picture's description
  std::size_t offset = std::string::npos;  ///< in the file; npos when not known
};

enum class BlockKind {
  heading,
  paragraph,
  quote,
  bullet_list,
  numbered_list,
  item,
  rule,
  code,
  html,
  table,
  row,
  cell
};
enum class CellAlign { usual, left, centre, right };

/// A paragraph, or something that holds blocks.
struct Block {
  BlockKind kind = BlockKind::paragraph;
  std::vector<Block> blocks;
  std::vector<Span> spans;
  int level = 0;              ///< of a heading, 1 to 6
  unsigned first_number = 1;  ///< of a numbered list
  bool tight = false;         ///< a list without gaps; a paragraph that stands in one
  bool head = false;          ///< a row or cell of a table's head
  CellAlign align = CellAlign::usual;
  std::string info;                        ///< after the fence of a code block
  std::size_t offset = std::string::npos;  ///< in the file; npos when not known
};

/// What a text in Markdown holds.
struct Markdown {
  std::vector<Block> blocks;
  /// Blocks or spans lay deeper in each other than this: their frames were left out, their words
  /// kept.
  bool too_deep = false;
  std::size_t too_deep_at = 0;
};
inline constexpr std::size_t deepest_blocks = 60, deepest_spans = 40;

/// Reads CommonMark 0.30 with tables, as MD4C does: never fails, in time proportional to the text.
/// Refers to nothing afterwards.
[[nodiscard]] Markdown read_markdown(const SourceText& source);

}  // namespace quoin::rules
