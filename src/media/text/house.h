#pragma once
#include <string_view>
#include <vector>

namespace quoin {

/// A file that Quoin carries inside itself; the bytes live as long as the program.
struct HouseFile {
  std::string_view name;
  std::string_view bytes;
};

/// Noto Sans regular, bold, italic and bold italic (SIL Open Font License 1.1).
[[nodiscard]] const std::vector<HouseFile>& house_fonts();

/// American English hyphenation patterns.
[[nodiscard]] const HouseFile& house_patterns();

}  // namespace quoin
