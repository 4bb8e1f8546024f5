#pragma once
#include <map>
#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "base/origin.h"
#include "base/world.h"
#include "game/box_wishes.h"
#include "geometry/geometry.h"

namespace quoin::game {

/// How the rules are folded. `automatic`: the form with the fewest sheets and folds that the text
/// goes into.
enum class RulesForm { automatic, flat, half, accordion, eight_pages, booklet };

/// "eight-pages": as it is written under [rules].
[[nodiscard]] std::string_view rules_form_word(RulesForm form);

/// On which sides of the paper the rules are printed. `automatic`: on both when the printer of the
/// cards can.
enum class RulesSides { automatic, one, both };

/// The rules of a game: their text, and what [rules] says. What is not given is empty and follows
/// from the text and the box.
struct RulesWishes {
  FileName file;
  std::shared_ptr<const Bytes> text;  ///< as it stands in the file: UTF-8
  RulesForm form = RulesForm::automatic;
  RulesSides sides = RulesSides::automatic;
  std::optional<int> panels;   ///< of an accordion, 3 to 8
  std::optional<int> columns;  ///< side by side on a page, 1 to 4
  std::optional<Mm> type;      ///< type size of the text
  Mm minimum;                  ///< it is never set smaller
  std::optional<Size> size;    ///< of the folded leaflet
  std::optional<Mm> margin;    ///< round the text of a page
  std::string text_style;      ///< a name of [styles], "" for none
  std::string heading_style;
  std::string accent;  ///< a colour, "" for that of the headings
  BoardWishes paper;
  Origin origin;                                      ///< of [rules], or of the file
  std::map<std::string, Origin, std::less<>> places;  ///< of the keys that were given

  /// Of the key's value, or of [rules] when the key was not given.
  [[nodiscard]] Origin place(std::string_view key) const {
    const auto found = places.find(key);
    return found == places.end() ? origin : found->second;
  }
};

/// The rules of a folder that does not say otherwise.
inline constexpr const char* usual_rules_file = "rules.md";
/// A file of rules may have so many bytes.
inline constexpr std::size_t largest_rules = std::size_t{2} << 20;

}  // namespace quoin::game
