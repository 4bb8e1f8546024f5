#pragma once
#include <string>
#include <string_view>

namespace quoin {

/// A file name under which these bytes can be opened by libraries that want a name. Equal bytes
/// share a file; it lives as long as the program, so that a name never comes to mean other bytes.
///
/// Returns "" when the system grants no more files, with its words in `why`.
[[nodiscard]] std::string memory_file(std::string_view bytes, std::string& why);

}  // namespace quoin
