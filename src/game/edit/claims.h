#pragma once
#include "game/edit/csv_source.h"
#include "game/edit/edit.h"
#include "game/edit/toml_edit.h"

namespace quoin::game {

/// game::claim and game::edit for a text that is read already, which must be of the kind that the
/// change is for.
[[nodiscard]] Result<Claim> claim_in(const Change& change, const TomlText& text);
[[nodiscard]] Result<Claim> claim_in(const Change& change, const CsvText& list);
[[nodiscard]] EditAnswer edit_in(const Claim& claim, const TomlText& text,
                                 WhenChanged when_changed);
[[nodiscard]] EditAnswer edit_in(const Claim& claim, const CsvText& list, WhenChanged when_changed);

}  // namespace quoin::game
