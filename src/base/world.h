#pragma once
#include <functional>
#include <map>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"

namespace quoin {

using Bytes = std::string;

/// A stretch of bytes that copies share; whoever has one keeps what it lies in.
class SharedBytes {
 public:
  SharedBytes() = default;
  SharedBytes(Bytes whole);
  /// `part` must lie in `*owner`.
  SharedBytes(std::shared_ptr<const Bytes> owner, std::string_view part)
      : owner_(std::move(owner)), part_(part) {}

  [[nodiscard]] std::string_view view() const { return part_; }
  [[nodiscard]] std::size_t size() const { return part_.size(); }
  bool operator==(const SharedBytes& other) const { return part_ == other.part_; }

 private:
  std::shared_ptr<const Bytes> owner_;
  std::string_view part_;
};

/// Where bytes go that are made one after another.
using ByteSink = std::function<void(std::string_view)>;

/// What became of a read, in the machine's terms; whoever asked turns it into a diagnostic that
/// knows who wanted the file.
enum class ReadFailure { missing, unreadable, is_a_folder, too_large, outside_the_game };

/// One read: bytes, or why not with the system's own words.
struct ReadAnswer {
  std::shared_ptr<const Bytes> bytes;  ///< null when it failed
  ReadFailure failure = ReadFailure::missing;
  std::string system_words;  ///< "Permission denied"
  [[nodiscard]] bool ok() const { return bytes != nullptr; }
};

/// The machine as Quoin sees it while it reads: the files of one game folder.
///
/// Paths are relative to the game folder, with '/' between folders. A path that leaves the game
/// folder, by `..`, as an absolute path or through a symbolic link, is refused with
/// `outside_the_game`; the folder itself may be reached through links. `RealWorld` reads the
/// disk, `MemoryWorld` is for tests and for edits not yet saved. Both answer from any thread.
class World {
 public:
  virtual ~World() = default;

  /// The whole file. A file over `limit` bytes is not read: `too_large`.
  [[nodiscard]] virtual ReadAnswer read(std::string_view path, std::size_t limit) const = 0;

  /// The files in a folder and below it, sorted by name, as paths relative to the game folder.
  /// Links are listed as what they lead to; a cycle of links is entered once. Empty when there
  /// is no such folder.
  [[nodiscard]] virtual std::vector<std::string> files_below(std::string_view folder) const = 0;
};

/// No file of a game is larger than this: 256 MiB.
inline constexpr std::size_t largest_file = std::size_t{256} << 20;

/// The folder `root` on disk.
[[nodiscard]] std::unique_ptr<World> real_world(std::string root);

/// Files held in memory; paths as in World.
class MemoryWorld : public World {
 public:
  MemoryWorld() = default;
  explicit MemoryWorld(std::map<std::string, Bytes, std::less<>> files);
  void put(std::string path, Bytes bytes);

  [[nodiscard]] ReadAnswer read(std::string_view path, std::size_t limit) const override;
  [[nodiscard]] std::vector<std::string> files_below(std::string_view folder) const override;

 private:
  std::map<std::string, std::shared_ptr<const Bytes>, std::less<>> files_;
};

/// "art/../icons/x.svg" -> "icons/x.svg". Empty when the path leaves the game folder or is
/// absolute.
[[nodiscard]] std::string normal_path(std::string_view path);

/// The sentence for a failed read: "there is no file art/wrack.png", "cannot read …: Permission
/// denied".
[[nodiscard]] std::string explain(const ReadAnswer& answer, std::string_view path);

}  // namespace quoin
