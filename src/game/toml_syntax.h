#pragma once
#include <string_view>

#include "base/diagnostic.h"
#include "game/toml_statements.h"

namespace quoin::game {

/// What is wrong with a text that is no TOML, in a maker's words: `game.toml-syntax` or
/// `game.toml-key-twice`. `where` is the place at which the parser stopped, `parser_words` its
/// own description; those are shown only when we have none of our own. `faulty` is the
/// statement in which it stopped.
[[nodiscard]] Diagnostic syntax_problem(std::string_view text, Origin where,
                                        std::string_view parser_words, const FaultyLines& faulty);

}  // namespace quoin::game
