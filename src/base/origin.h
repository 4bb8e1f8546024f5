#pragma once
#include <cstdint>
#include <string>
#include <string_view>

namespace quoin {

/// The name of a file, shared by all the places inside it: copying one costs a pointer.
///
/// Names are relative to the game folder with '/' between folders, as the maker knows them.
class FileName {
 public:
  FileName() = default;
  explicit FileName(std::string_view name);
  [[nodiscard]] const std::string& str() const;
  [[nodiscard]] bool empty() const { return name_ == nullptr || name_->empty(); }
  bool operator==(const FileName& other) const { return str() == other.str(); }

 private:
  const std::string* name_ = nullptr;  // interned, lives as long as the program
};

/// Where something was said: a stretch of one line of one of the maker's files.
///
/// `line` and `column` count from 1; columns count UTF-8 characters, not bytes. A line of 0
/// means "the file as a whole"; an empty file name means "nowhere the maker wrote".
struct Origin {
  FileName file;
  std::uint32_t line = 0;
  std::uint32_t column = 0;
  std::uint32_t length = 0;  ///< characters, 0 when unknown

  bool operator==(const Origin&) const = default;
};

/// "cards.csv:31:13", "cards.csv" or "".
[[nodiscard]] std::string to_string(const Origin& origin);

/// Orders by file name, then line, then column: the order in which problems are shown.
[[nodiscard]] bool comes_before(const Origin& a, const Origin& b);

}  // namespace quoin
