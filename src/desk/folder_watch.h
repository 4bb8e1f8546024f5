#pragma once
#include <functional>
#include <memory>
#include <string>
#include <string_view>

namespace quoin::desk {

/// Whether a path of the game folder bears on the game: not the packs that are made of it, nor
/// what begins with a dot (journals, files half written).
[[nodiscard]] bool bears_on_the_game(std::string_view path);

/// Names what stands in a folder by the paths, sizes, times and rights of its files, as far as they
/// bear on the game. Another name: something changed.
struct FolderNames {
  std::string texts;     ///< TOML, CSV and Markdown
  std::string pictures;  ///< all else: pictures and fonts
  bool operator==(const FolderNames&) const = default;
};
[[nodiscard]] FolderNames names_of(const std::string& folder);

/// Calls `changed` on a thread of its own when something in the folder or below it was changed,
/// once things have been quiet for 30 ms, at the latest after 150 ms. Uses inotify; where the
/// system has no more watches to give, or the folder is put in another's place, it looks every
/// half second.
class FolderWatch {
 public:
  FolderWatch(std::string folder, std::function<void()> changed);
  ~FolderWatch();
  FolderWatch(const FolderWatch&) = delete;
  FolderWatch& operator=(const FolderWatch&) = delete;

 private:
  struct State;
  std::unique_ptr<State> state_;
};

}  // namespace quoin::desk
