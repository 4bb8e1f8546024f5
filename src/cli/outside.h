#pragma once
#include <string>

namespace quoin::cli {

/// Where things are kept between runs, by the rules of the XDG Base Directory Specification; ""
/// when there is no such place.
[[nodiscard]] std::string cache_folder();

/// Where the printers of this machine are kept, by the same rules: $XDG_CONFIG_HOME/quoin/printers.
[[nodiscard]] std::string printers_folder();

/// Shows a file, a folder or an address with the system's own program (xdg-open). False when there
/// is none, or no screen to show it on.
[[nodiscard]] bool show_outside(const std::string& what);

}  // namespace quoin::cli
