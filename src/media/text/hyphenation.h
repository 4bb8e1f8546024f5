#pragma once
#include <cstdint>
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <unordered_map>
#include <vector>

#include "media/text.h"

namespace quoin {

/// Finds where a word may be divided, by patterns.
///
/// The method is F. M. Liang's ("Word Hy-phen-a-tion by Com-put-er", Stanford, 1983); the pattern
/// files are the `hyph_*.dic` files that Debian ships: an encoding on the first line, then settings
/// and a pattern on each line. Of a file with two levels the word level is used; patterns that
/// change letters (those with a '/') are left out, so that a word is never spelt anew.
class Hyphenator {
 public:
  /// Nothing when `dictionary` is not such a file, or not in an encoding known here.
  [[nodiscard]] static std::optional<Hyphenator> read(std::string_view dictionary);

  /// The places where `word` (letters only, any case) may be divided: each is the count of
  /// characters before the break, ascending.
  [[nodiscard]] std::vector<std::size_t> breaks(std::u32string_view word) const;

 private:
  void pattern(std::u32string_view line);

  std::unordered_map<std::u32string, std::vector<std::uint8_t>> patterns_;
  std::size_t longest_ = 0;
  std::size_t before_ = 2, after_ = 2;  ///< least letters before and after a break
};

/// Byte offsets in `text` (UTF-8) at which a soft hyphen may be put. Words that hold a soft hyphen
/// already are the maker's business and left alone.
[[nodiscard]] std::vector<std::size_t> soft_hyphen_places(const std::string& text,
                                                          const Hyphenator& hyphenator);

/// The dictionaries of one game: those it brings (files named `hyph_LANGUAGE.dic`), the house's
/// (American English), and those of the machine. Opened when first asked for.
class HyphenationShelf {
 public:
  /// Takes the dictionaries out of `files` and leaves the rest.
  explicit HyphenationShelf(std::vector<FontFile>& files);

  /// The one for that language tag, its own region before others; null when there is none. What
  /// came from the machine is added to `borrowed`.
  [[nodiscard]] const Hyphenator* find(const std::string& language);
  [[nodiscard]] const std::vector<std::string>& borrowed() const { return borrowed_; }

 private:
  [[nodiscard]] std::optional<Hyphenator> open(const std::string& language);

  std::map<std::string, std::shared_ptr<const Bytes>> of_game_;  ///< "de_AT" -> file
  std::map<std::string, std::optional<Hyphenator>> opened_;      ///< by language tag
  std::vector<std::string> borrowed_;
};

}  // namespace quoin
