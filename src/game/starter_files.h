#pragma once
#include <string_view>

namespace quoin::game {

/// The files of the starter game. "@TITLE@" in the settings stands for the title as TOML text.
extern const std::string_view starter_settings;
extern const std::string_view starter_cards;
extern const std::string_view starter_frame;
extern const std::string_view starter_face;
extern const std::string_view starter_back;
extern const std::string_view starter_sun;
extern const std::string_view starter_moon;
extern const std::string_view starter_rules;

}  // namespace quoin::game
