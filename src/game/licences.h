#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace quoin::game {

/// What a licence says of one use.
enum class Leave { yes, no, not_known };

/// What Quoin knows of a licence: enough to ask the right questions, and no legal advice. The text
/// of the licence and the law of the place decide.
///
/// `id` is an identifier of the SPDX License List (checked against it in tests/outside), or one of
/// our plain words. What each allows is taken from the licences' own texts, read in short: from
/// memory, no source.
struct Licence {
  std::string id;
  std::string name;  ///< in a sentence: "CC BY 4.0", "made for this game"
  Leave giving = Leave::yes;
  Leave changing = Leave::yes;
  Leave selling = Leave::yes;
  enum class Credit { due, not_asked } credit = Credit::not_asked;  ///< is whoever made it named?
  enum class Terms { same, free } terms = Terms::free;  ///< must what is made keep the licence?
  bool is_spdx = true;                                  ///< else a plain word
};

/// All that are known: SPDX identifiers first, then the plain words own, permission, public domain,
/// all rights reserved and unknown.
[[nodiscard]] const std::vector<Licence>& licences();

/// The licence a maker means: identifiers and words whatever their capitals, blanks for dashes
/// ("CC BY 4.0"), CC0 for CC0-1.0; "A OR B" allows what either allows, "A AND B" what both do.
/// Nothing for any other word; an empty text is `unknown`.
[[nodiscard]] std::optional<Licence> find_licence(std::string_view text);

/// The licence that was most likely meant by a word that is none.
[[nodiscard]] std::optional<std::string> nearest_licence(std::string_view text);

}  // namespace quoin::game
