#include "job/edit/disk.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>

namespace quoin::job {
namespace fs = std::filesystem;
namespace {

Diagnostic not_written(const std::string& path, int why) {
  return Diagnostic(Id::edit_not_written, {FileName(path)},
                    fmt::format("cannot write {}: {}", path, std::strerror(why)))
      .detail("the file is as it was; the change is kept and shown")
      .hint("make room on the disk, or give yourself the right to change the file, and try again");
}

Diagnostic read_only(const std::string& path) {
  return Diagnostic(Id::edit_read_only, {FileName(path)},
                    fmt::format("{} may only be read, not changed", path))
      .detail("the file is as it was; the change is kept and shown")
      .hint("allow changes to the file in its properties, and try again");
}

Diagnostic outside(const std::string& path) {
  return Diagnostic(Id::edit_outside, {FileName(path)},
                    fmt::format("{} lies outside the game folder", path))
      .hint("copy the file into the game folder in place of the link");
}

Diagnostic no_journal(const std::string& folder, int why) {
  return Diagnostic(Id::edit_journal_not_written, {},
                    fmt::format("cannot write in {}: {}", folder, std::strerror(why)))
      .hint("make room on the disk, or give yourself the right to write in the game folder");
}

std::string leftover_of(const std::string& real) {
  const fs::path path(real);
  return (path.parent_path() / ("." + path.filename().string() + ".quoin-part")).string();
}

int flush_folder(const std::string& folder) {
  const OpenFile file(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  if (!file.is_open()) return errno;
  // Some file systems cannot flush a folder; the rename is as safe there as it can be.
  return ::fsync(file.descriptor()) != 0 && errno != EINVAL ? errno : 0;
}

/// Writes the new file beside the old one, with its rights; 0 or why not.
int write_beside(const std::string& part, const Bytes& bytes, const struct stat& old) {
  ::unlink(part.c_str());
  const int flags = O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC | O_NOFOLLOW;
  const OpenFile file(::open(part.c_str(), flags, 0600));
  if (!file.is_open()) return errno;
  if (const int why = write_all(file.descriptor(), bytes); why != 0) return why;
  // The owner can only be kept by who may give files away; the file is the maker's either way.
  if (::fchown(file.descriptor(), old.st_uid, old.st_gid) != 0) errno = 0;
  if (::fchmod(file.descriptor(), old.st_mode & 07777U) != 0) return errno;
  return ::fsync(file.descriptor()) != 0 ? errno : 0;
}

}  // namespace

OpenFile::~OpenFile() {
  if (descriptor_ >= 0) ::close(descriptor_);
}

OpenFile::OpenFile(OpenFile&& other) noexcept : descriptor_(std::exchange(other.descriptor_, -1)) {}

OpenFile& OpenFile::operator=(OpenFile&& other) noexcept {
  std::swap(descriptor_, other.descriptor_);
  return *this;
}

int write_all(int descriptor, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t n = ::write(descriptor, bytes.data(), bytes.size());
    if (n >= 0)
      bytes.remove_prefix(static_cast<std::size_t>(n));
    else if (errno != EINTR)
      return errno;
  }
  return 0;
}

GameDisk::GameDisk(const std::string& folder) : world_(real_world(folder)) {
  std::error_code failed;
  root_ = fs::canonical(folder, failed).string();
  if (failed) root_ = folder;
}

std::optional<std::string> GameDisk::real_path(const std::string& path) const {
  const std::string inside = normal_path(path);
  if (inside.empty() || root_.empty()) return std::nullopt;
  std::error_code failed;
  const fs::path full = fs::weakly_canonical(fs::path(root_) / inside, failed);
  const fs::path root(root_);
  const auto [end, unused] = std::mismatch(root.begin(), root.end(), full.begin(), full.end());
  if (failed || end != root.end()) return std::nullopt;
  return full.string();
}

quoin::Outcome GameDisk::replace(const std::string& path, const Bytes& after) const {
  const std::optional<std::string> real = real_path(path);
  if (!real) return outside(path);
  struct stat old {};
  if (::stat(real->c_str(), &old) != 0) return not_written(path, errno);
  if (!S_ISREG(old.st_mode)) return not_written(path, S_ISDIR(old.st_mode) ? EISDIR : EINVAL);
  const bool may_be_written = (old.st_mode & 0222U) != 0 && ::access(real->c_str(), W_OK) == 0;
  if (!may_be_written) return read_only(path);
  const std::string part = leftover_of(*real);
  int why = write_beside(part, after, old);
  if (why == 0 && std::rename(part.c_str(), real->c_str()) != 0) why = errno;
  if (why != 0) {
    ::unlink(part.c_str());
    return not_written(path, why);
  }
  // The new file stands; only its name may not be on the disk yet.
  if (flush_folder(fs::path(*real).parent_path().string()) != 0) return Done{};
  return Done{};
}

void GameDisk::clear_leftover(const std::string& path) const {
  if (const std::optional<std::string> real = real_path(path)) {
    ::unlink(leftover_of(*real).c_str());
  }
}

Result<FolderLock> FolderLock::take(const std::string& quoin_folder) {
  if (::mkdir(quoin_folder.c_str(), 0777) != 0 && errno != EEXIST) {
    return no_journal(quoin_folder, errno);
  }
  struct stat facts {};
  if (::lstat(quoin_folder.c_str(), &facts) != 0) return no_journal(quoin_folder, errno);
  if (!S_ISDIR(facts.st_mode)) return no_journal(quoin_folder, ENOTDIR);
  const std::string path = quoin_folder + "/lock";
  OpenFile file(::open(path.c_str(), O_RDWR | O_CREAT | O_CLOEXEC | O_NOFOLLOW, 0666));
  if (!file.is_open()) return no_journal(quoin_folder, errno);
  if (::flock(file.descriptor(), LOCK_EX | LOCK_NB) != 0) {
    return Diagnostic(Id::edit_open_elsewhere, {}, "the game is open for changes in another desk")
        .hint("close the other desk, then try again");
  }
  return FolderLock(std::move(file));
}

}  // namespace quoin::job
