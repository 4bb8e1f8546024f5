// Emphasis by the delimiter rules of CommonMark 0.30, sections 2.4 and 6.2, kept to what a card
// needs: *, **, _ and __, backslash escapes, and [symbol].
#include <glib.h>

#include <algorithm>
#include <optional>

#include "media/text.h"
#include "media/text/letter_case.h"

namespace quoin {
namespace {

using Symbols = std::map<std::string, std::shared_ptr<const InlineSymbol>>;

/// A piece of the text: plain characters, a row of marks, or a symbol.
struct Piece {
  std::string text;
  std::shared_ptr<const InlineSymbol> symbol;
  char mark = 0;  ///< '*' or '_' for a row of marks
  bool opens = false, closes = false;
  std::size_t row = 0;   ///< marks as written
  std::size_t left = 0;  ///< marks that have found no partner
  bool bold = false, italic = false;
};

bool is_space(gunichar c) { return c == 0 || g_unichar_isspace(c); }
bool is_punctuation(gunichar c) {
  return g_unichar_ispunct(c) || (c < 128 && g_ascii_ispunct(static_cast<char>(c)));
}

gunichar character_before(const std::string& text, std::size_t at) {
  if (at == 0) return 0;
  return g_utf8_get_char(g_utf8_find_prev_char(text.c_str(), text.c_str() + at));
}

/// Section 6.2: whether a row of marks may open or close emphasis.
void judge(Piece& row, gunichar before, gunichar after) {
  const bool left =
      !is_space(after) && (!is_punctuation(after) || is_space(before) || is_punctuation(before));
  const bool right =
      !is_space(before) && (!is_punctuation(before) || is_space(after) || is_punctuation(after));
  if (row.mark == '*') {
    row.opens = left;
    row.closes = right;
  } else {  // an underline inside a word is part of the word
    row.opens = left && (!right || is_punctuation(before));
    row.closes = right && (!left || is_punctuation(after));
  }
}

/// The name in "[name]" at `at`; nothing when it is no such thing.
std::optional<std::string> bracketed(const std::string& text, std::size_t at) {
  const std::size_t end = text.find_first_of("[]\n\\", at + 1);
  if (end == std::string::npos || text[end] != ']' || end == at + 1) return std::nullopt;
  return text.substr(at + 1, end - at - 1);
}

bool is_one_word(const std::string& name) {
  return std::none_of(name.begin(), name.end(),
                      [](char c) { return g_ascii_isspace(c) || c == '*' || c == ','; });
}

class MarkupReader {
 public:
  MarkupReader(std::string text, const Symbols& symbols, std::vector<std::string>& unknown)
      : text_(std::move(text)), symbols_(symbols), unknown_(unknown) {}

  std::vector<Piece> read() {
    while (at_ < text_.size()) next();
    pair_up();
    return std::move(pieces_);
  }

 private:
  void next() {
    const char c = text_[at_];
    if (c == '\n') {
      pair_up();  // emphasis never reaches into the next paragraph
      plain("\n");
      ++at_;
    } else if (c == '\\' && at_ + 1 < text_.size() && g_ascii_ispunct(text_[at_ + 1])) {
      plain(text_.substr(at_ + 1, 1));
      at_ += 2;
    } else if (c == '*' || c == '_') {
      marks(c);
    } else if (c == '[') {
      symbol();
    } else {
      const std::size_t end = std::min(text_.size(), text_.find_first_of("\n\\*_[", at_ + 1));
      plain(text_.substr(at_, end - at_));
      at_ = end;
    }
  }

  void plain(const std::string& text) {
    if (pieces_.empty() || pieces_.back().mark != 0 || pieces_.back().symbol ||
        pieces_.size() == paragraph_)
      pieces_.emplace_back();
    pieces_.back().text += text;
  }

  void marks(char mark) {
    const std::size_t end = std::min(text_.size(), text_.find_first_not_of(mark, at_));
    Piece row;
    row.mark = mark;
    row.row = row.left = end - at_;
    judge(row, character_before(text_, at_),
          end < text_.size() ? g_utf8_get_char(text_.c_str() + end) : 0);
    pieces_.push_back(std::move(row));
    at_ = end;
  }

  void symbol() {
    const auto name = bracketed(text_, at_);
    const auto known = name ? symbols_.find(*name) : symbols_.end();
    if (known != symbols_.end()) {
      Piece piece;
      piece.text = *name;
      piece.symbol = known->second;
      pieces_.push_back(std::move(piece));
      at_ += name->size() + 2;
      return;
    }
    if (name && is_one_word(*name) &&
        std::find(unknown_.begin(), unknown_.end(), *name) == unknown_.end())
      unknown_.push_back(*name);
    plain("[");
    ++at_;
  }

  /// Pairs the rows of marks of the paragraph that ends here.
  void pair_up() {
    for (std::size_t closer = paragraph_; closer < pieces_.size(); ++closer)
      while (pieces_[closer].closes && pieces_[closer].left > 0 && close(closer)) {
      }
    for (std::size_t i = paragraph_; i < pieces_.size(); ++i)
      pieces_[i].text.append(pieces_[i].left, pieces_[i].mark);
    paragraph_ = pieces_.size();
    floor_.clear();
  }

  /// Pairs one or two marks of the row at `closer` with the nearest row that opens; false when
  /// there is none.
  bool close(std::size_t closer) {
    Piece& end = pieces_[closer];
    std::size_t& lowest = floor_[kind_of(end)];
    for (std::size_t opener = closer; opener-- > std::max(paragraph_, lowest);) {
      Piece& begin = pieces_[opener];
      if (begin.mark != end.mark || !begin.opens || begin.left == 0) continue;
      const bool by_three = (begin.closes || end.opens) && (begin.row + end.row) % 3 == 0 &&
                            (begin.row % 3 != 0 || end.row % 3 != 0);
      if (by_three) continue;
      const std::size_t count = begin.left >= 2 && end.left >= 2 ? 2 : 1;
      emphasise(opener, closer, count);
      begin.left -= count;
      end.left -= count;
      return true;
    }
    lowest = closer;  // nothing before here can serve a row of this kind
    return false;
  }

  void emphasise(std::size_t opener, std::size_t closer, std::size_t count) {
    for (std::size_t i = opener + 1; i < closer; ++i) {
      (count == 2 ? pieces_[i].bold : pieces_[i].italic) = true;
      pieces_[i].opens = false;  // rows between that found no partner stay plain
    }
  }

  /// Rows of one kind have the same rows to choose from.
  static std::size_t kind_of(const Piece& row) {
    return (row.mark == '*' ? 0u : 6u) + (row.opens ? 0u : 3u) + row.row % 3;
  }

  std::string text_;
  const Symbols& symbols_;
  std::vector<std::string>& unknown_;
  std::size_t at_ = 0;
  std::size_t paragraph_ = 0;  ///< the first piece of the paragraph
  std::vector<Piece> pieces_;
  std::map<std::size_t, std::size_t> floor_;
};

}  // namespace

std::vector<TextRun> read_markup(std::string_view text, const Symbols& symbols,
                                 std::vector<std::string>& unknown) {
  std::vector<TextRun> runs;
  for (Piece& piece : MarkupReader(valid_utf8(text), symbols, unknown).read()) {
    if (piece.text.empty()) continue;
    const bool joins = !runs.empty() && !runs.back().symbol && !piece.symbol &&
                       runs.back().bold == piece.bold && runs.back().italic == piece.italic;
    if (joins) {
      runs.back().text += piece.text;
    } else {
      runs.push_back({std::move(piece.text), piece.bold, piece.italic, std::move(piece.symbol)});
    }
  }
  return runs;
}

}  // namespace quoin
