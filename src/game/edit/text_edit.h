#pragma once
#include "game/edit/edit.h"

namespace quoin::game {

/// game::claim and game::edit for a plain text.
///
/// The claim holds the one passage that differs, with what stands round it. It is made where that
/// passage stands: at its old place, else at the only place where it stands with what was round it.
/// Where somebody else changed the same passage the answer is a collision of the two; mine then
/// takes the place of theirs. `edit.not-writable` when the new text is not UTF-8 or has a NUL.
[[nodiscard]] Result<Claim> claim_in_text(const EditText& change, const Bytes& text);
[[nodiscard]] EditAnswer edit_in_text(const Claim& claim, const Bytes& text,
                                      WhenChanged when_changed);

}  // namespace quoin::game
