#pragma once
#include <memory>
#include <optional>
#include <string>
#include <string_view>

#include "base/result.h"
#include "base/world.h"

namespace quoin::job {

/// A file of ours that is open for writing at its end, and closed when it goes out of scope.
class OpenFile {
 public:
  OpenFile() = default;
  explicit OpenFile(int descriptor) : descriptor_(descriptor) {}
  ~OpenFile();
  OpenFile(OpenFile&& other) noexcept;
  OpenFile& operator=(OpenFile&& other) noexcept;
  [[nodiscard]] bool is_open() const { return descriptor_ >= 0; }
  [[nodiscard]] int descriptor() const { return descriptor_; }

 private:
  int descriptor_ = -1;
};

/// Writes all bytes; 0, or the system's number for why not.
[[nodiscard]] int write_all(int descriptor, std::string_view bytes);

/// The game folder as it is written to. Paths are as in World.
class GameDisk {
 public:
  explicit GameDisk(const std::string& folder);

  [[nodiscard]] const World& world() const { return *world_; }
  [[nodiscard]] std::shared_ptr<const World> shared_world() const { return world_; }
  /// On disk, links followed.
  [[nodiscard]] const std::string& root() const { return root_; }

  /// Puts `after` in the place of `before`, whole or not at all: it is written beside the file,
  /// brought to the disk, and takes its name. Rights stay; a link stays, and what it leads to is
  /// written when that lies inside the game folder.
  ///
  /// Fails with `edit.outside-the-game`, `edit.read-only` and `edit.not-written`; the file is then
  /// as it was.
  [[nodiscard]] quoin::Outcome replace(const std::string& path, const Bytes& after) const;

  /// Takes away what a stopped `replace` of this file may have left.
  void clear_leftover(const std::string& path) const;

 private:
  [[nodiscard]] std::optional<std::string> real_path(const std::string& path) const;

  std::string root_;
  std::shared_ptr<const World> world_;
};

/// Holds a game folder for one editor until it goes out of scope or its program ends.
class FolderLock {
 public:
  /// Fails with `edit.open-elsewhere`, and `edit.journal-not-written` when `.quoin` cannot be made.
  [[nodiscard]] static Result<FolderLock> take(const std::string& quoin_folder);

 private:
  explicit FolderLock(OpenFile file) : file_(std::move(file)) {}
  OpenFile file_;
};

}  // namespace quoin::job
