#pragma once
#include <string_view>

namespace quoin::game {

/// The parts of docs/game-files.md that are not lists of keys, as Markdown with a blank line at
/// the end.
extern const std::string_view page_introduction;
extern const std::string_view page_settings;
extern const std::string_view page_cards;
extern const std::string_view page_layouts;
extern const std::string_view page_placeholders;
extern const std::string_view page_conditions;
extern const std::string_view page_rules;
extern const std::string_view page_printers;

}  // namespace quoin::game
