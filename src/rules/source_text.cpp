#include "rules/source_text.h"

#include <algorithm>

namespace quoin::rules {
namespace {

std::uint32_t characters_in(std::string_view text) {
  return static_cast<std::uint32_t>(std::count_if(text.begin(), text.end(), [](char c) {
    return (static_cast<unsigned char>(c) & 0xC0) != 0x80;
  }));
}

}  // namespace

SourceText::SourceText(std::string_view text, FileName file) : text_(text), file_(file) {
  lines_.push_back(0);
  for (std::size_t i = 0; i < text.size(); ++i) {
    if (text[i] == '\n' || (text[i] == '\r' && (i + 1 == text.size() || text[i + 1] != '\n'))) {
      lines_.push_back(i + 1);
    }
  }
}

Origin SourceText::place(std::size_t offset, std::size_t length) const {
  offset = std::min(offset, text_.size());
  const auto after = std::upper_bound(lines_.begin(), lines_.end(), offset);
  const auto line = static_cast<std::size_t>(after - lines_.begin()) - 1;
  if (line != known_line_ || offset < known_offset_) {
    known_line_ = line;
    known_offset_ = lines_[line];
    known_column_ = 1;
  }
  known_column_ += characters_in(text_.substr(known_offset_, offset - known_offset_));
  known_offset_ = offset;
  const std::size_t end = line + 1 < lines_.size() ? lines_[line + 1] - 1 : text_.size();
  length = std::min(length, end > offset ? end - offset : 0);
  return {file_, static_cast<std::uint32_t>(line + 1), known_column_,
          characters_in(text_.substr(offset, length))};
}

std::size_t SourceText::offset_of(const char* at) const {
  const std::less_equal<const char*> before;
  const char* const begin = text_.data();
  if (at == nullptr || !before(begin, at) || !before(at, begin + text_.size())) {
    return std::string_view::npos;
  }
  return static_cast<std::size_t>(at - begin);
}

}  // namespace quoin::rules
