#pragma once
#include <string>

namespace quoin {

/// The linker's name of this build of the program, in hexadecimal: another one for any change of
/// the code. What one build concluded is not taken over by another. "" when the linker gave none.
/// Source: the note NT_GNU_BUILD_ID of the Linux Standard Base's ELF notes.
[[nodiscard]] const std::string& build_id();

}  // namespace quoin
