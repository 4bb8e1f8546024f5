#pragma once
#include <string_view>
#include <vector>

#include "base/origin.h"

namespace quoin::rules {

/// The bytes of a file, and where each of them stands for a reader. Refers to the text. For one
/// thread at a time.
class SourceText {
 public:
  SourceText(std::string_view text, FileName file);

  [[nodiscard]] std::string_view text() const { return text_; }
  [[nodiscard]] FileName file() const { return file_; }
  /// The place of so many bytes from `offset` on, cut at the end of their line. Asking for places
  /// in rising order takes time in proportion to the text, however long its lines are.
  [[nodiscard]] Origin place(std::size_t offset, std::size_t length = 0) const;
  /// The byte at which a pointer into the text stands; npos for a pointer to elsewhere.
  [[nodiscard]] std::size_t offset_of(const char* at) const;

 private:
  std::string_view text_;
  FileName file_;
  std::vector<std::size_t> lines_;        // where each begins
  mutable std::size_t known_offset_ = 0;  // a place on `known_line_` …
  mutable std::size_t known_line_ = 0;    // … counted from 0
  mutable std::uint32_t known_column_ = 1;
};

}  // namespace quoin::rules
