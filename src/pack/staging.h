#pragma once
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include "base/result.h"
#include "base/world.h"

namespace quoin::pack {

/// What a folder of files is: the file that marks it and lists what is in it, what it is called in
/// messages, and what is said when files in the way are not of this kind.
struct FolderKind {
  const char* marker;
  const char* word;
  Id not_of_this_kind;
};
/// The file that marks a folder as a pack and lists what is in it.
inline constexpr const char* report_name = "report.json";
inline constexpr FolderKind pack_folder{report_name, "pack", Id::pack_target_not_a_pack};
/// The same for a game that is given to others.
inline constexpr const char* manifest_name = "share.json";
inline constexpr FolderKind share_folder{manifest_name, "share", Id::share_target_not_a_share};

/// A pack in the making: files are written beside the place where the pack will stand, and the
/// whole is put there in one step. Until then, and when anything fails, the earlier pack is as it
/// was. A staging that is dropped without `publish` takes its files with it; what a killed run left
/// behind is cleared away by the next.
class Staging {
 public:
  /// Makes ready to publish at `target` (a path on disk, made when missing).
  ///
  /// Fails with `pack.target-is-a-file`, `pack.target-not-a-pack` (a folder with files and no
  /// report.json of Quoin's: they would be lost; `share.target-not-a-share` for a share) and
  /// `pack.not-written` with the system's words.
  [[nodiscard]] static Result<Staging> begin(const std::string& target,
                                             const FolderKind& kind = pack_folder);

  ~Staging();
  Staging(Staging&& other) noexcept;
  Staging& operator=(Staging&&) = delete;

  /// Writes one file; folders on the way are made. Fails with `pack.not-written`.
  [[nodiscard]] Outcome write(const std::string& path, const Bytes& bytes);

  /// One file while it is written, by any thread; it keeps the first thing that goes wrong.
  class Writer {
   public:
    Writer(std::string path, std::string shown);
    ~Writer();
    Writer(const Writer&) = delete;
    Writer& operator=(const Writer&) = delete;

    void write(std::string_view bytes);

   private:
    friend class Staging;
    [[nodiscard]] Outcome close();
    std::string shown_;
    int file_ = -1;
    int failed_ = 0;  // errno
    std::size_t written_ = 0;
  };

  /// Begins a file that is written piece by piece; folders on the way are made.
  [[nodiscard]] Result<std::unique_ptr<Writer>> open(const std::string& path) const;
  /// Ends it and adds it to `files`. Fails with `pack.not-written`, also for an earlier piece.
  [[nodiscard]] Outcome close(const std::string& path, Writer& writer);

  /// A file that was written. Fails with `pack.not-written` when it cannot be read back.
  [[nodiscard]] Result<Bytes> read(const std::string& path) const;

  struct File {
    std::string path;
    std::size_t bytes = 0;
  };
  /// What was written so far, in order.
  [[nodiscard]] const std::vector<File>& files() const { return files_; }

  /// Puts the pack in place. Files that the maker laid into the earlier pack move over; the
  /// earlier pack's own are gone afterwards. Fails with `pack.not-written`, and then the earlier
  /// pack is whole.
  [[nodiscard]] Outcome publish();

 private:
  Staging(std::string target, std::string folder, const FolderKind& kind);
  [[nodiscard]] Outcome flush_files() const;
  std::string target_, folder_;
  const FolderKind* kind_;
  std::vector<File> files_;
};

}  // namespace quoin::pack
