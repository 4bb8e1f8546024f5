#pragma once
#include <optional>
#include <string>
#include <vector>

#include "base/diagnostic.h"
#include "cli/command.h"
#include "trace/tracing.h"

namespace quoin::cli {

// What the commands that work on pictures have in common.

/// What of a command cannot be followed, and what to write instead.
struct WrongUse {
  std::string what, hint;
};
/// Says so; the exit code for it.
int refuse(const Voices& voices, const WrongUse& wrong);

/// What is wrong with a place for a new picture that has the ending of a kind of picture, but none
/// of those that are written; nothing when it is one of them or a folder.
[[nodiscard]] std::optional<WrongUse> other_picture(const std::string& out,
                                                    const std::vector<std::string>& written);

/// "#1d2b33,#fff, black" as colours; the word that is none in `bad`.
[[nodiscard]] std::vector<Colour> colours_in(const std::string& list, std::string& bad);

/// The code to end with when what could be made was written.
[[nodiscard]] int code_of(const Diagnostics& found);

}  // namespace quoin::cli
