#pragma once
#include <vector>

#include "game/schema.h"

namespace quoin::game {

/// A row with what differs between rows of a kind.
[[nodiscard]] PropertyFacts with(PropertyFacts facts, std::string_view fallback,
                                 std::string_view fallback_words, std::string_view example,
                                 std::string_view meaning);

/// The rows of the table, a page of it for each file they describe. For schema.cpp only; all
/// others ask `keys_of` and `property_facts`.
[[nodiscard]] std::vector<PropertyFacts> game_keys();
[[nodiscard]] std::vector<PropertyFacts> box_keys();
[[nodiscard]] std::vector<PropertyFacts> rules_keys();
[[nodiscard]] std::vector<PropertyFacts> making_keys();
[[nodiscard]] std::vector<PropertyFacts> layout_keys();
[[nodiscard]] std::vector<PropertyFacts> on_box_keys();
[[nodiscard]] std::vector<PropertyFacts> mat_keys();
[[nodiscard]] std::vector<PropertyFacts> card_place_keys();
[[nodiscard]] std::vector<PropertyFacts> layout_part_keys();
[[nodiscard]] std::vector<PropertyFacts> printer_keys();

}  // namespace quoin::game
