#pragma once
#include <string>
#include <vector>

#include "media/text/composition.h"

namespace quoin {

/// Puts the lines and symbols of a broken text at their places in the block's box, and fills in
/// `lines`, `ink` and `line_ink`.
void place(Broken broken, const TextBlock& block, SetText::State& state, TextFacts& facts);

/// Fills in `missing_glyphs` and `other_families` from the glyphs that were found.
void report_letters(const SetText::State& state, const std::string& family, TextFacts& facts);

/// Of the soft hyphens put in at `divisions` (offsets in the text without them), those that end a
/// line.
[[nodiscard]] std::vector<std::size_t> divisions_used(const Broken& broken,
                                                      const std::vector<std::size_t>& divisions);

}  // namespace quoin
