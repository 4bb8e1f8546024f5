#include "pack/staging.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <signal.h>
#include <stdio.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <charconv>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <future>
#include <nlohmann/json.hpp>
#include <set>

namespace quoin::pack {
namespace fs = std::filesystem;
namespace {

constexpr const char* part_mark = ".quoin-part-";

Diagnostic not_written(const std::string& path, const std::string& words) {
  return Diagnostic(Id::pack_not_written, {}, fmt::format("cannot write {}: {}", path, words))
      .detail("the earlier pack, if there was one, is as it was")
      .hint("make room on the disk or name another folder with --out, then run it again");
}

/// Folders next to `target` that a run no longer alive left behind.
void clear_leftovers(const fs::path& parent, const std::string& stem) {
  std::error_code ec;
  for (fs::directory_iterator it(parent, ec), end; !ec && it != end; it.increment(ec)) {
    const std::string name = it->path().filename().string();
    if (!name.starts_with(stem)) continue;
    int process = 0;
    const char* digits = name.data() + stem.size();
    std::from_chars(digits, name.data() + name.size(), process);
    if (process > 0 && ::kill(process, 0) != 0 && errno == ESRCH) {
      std::error_code ignored;
      fs::remove_all(it->path(), ignored);
    }
  }
}

/// The files the earlier pack lists as its own, or nothing when it is no pack of ours.
std::optional<std::set<std::string>> listed_files(const fs::path& folder, const FolderKind& kind) {
  std::ifstream in(folder / kind.marker, std::ios::binary);
  if (!in) return std::nullopt;
  const nlohmann::json report = nlohmann::json::parse(in, nullptr, false);
  if (!report.is_object() || !report.contains("quoin") || !report.contains("files")) {
    return std::nullopt;
  }
  std::set<std::string> names{kind.marker};
  for (const nlohmann::json& file : report["files"]) {
    if (file.is_object()) names.insert(file.value("path", std::string{}));
  }
  return names;
}

/// Waits until the file is on the disk: a full one may only be noticed now.
Outcome flush(const fs::path& path, const std::string& shown) {
  const int fd = ::open(path.c_str(), O_RDONLY | O_CLOEXEC);
  if (fd < 0) return not_written(shown, std::strerror(errno));
  const int failed = ::fsync(fd) != 0 && errno != EINVAL ? errno : 0;
  ::close(fd);
  if (failed != 0) return not_written(shown, std::strerror(failed));
  return Done{};
}

/// Moves what the maker laid into the earlier pack over to the new one.
void keep_foreign_files(const fs::path& earlier, const fs::path& fresh, const FolderKind& kind) {
  const std::optional<std::set<std::string>> ours = listed_files(earlier, kind);
  if (!ours) return;
  std::error_code ec;
  std::vector<fs::path> foreign;
  for (fs::recursive_directory_iterator it(earlier, ec), end; !ec && it != end; it.increment(ec)) {
    const fs::path inside = it->path().lexically_relative(earlier);
    if (!it->is_directory(ec) && !ours->contains(inside.generic_string()))
      foreign.push_back(inside);
  }
  for (const fs::path& inside : foreign) {
    if (fs::exists(fresh / inside, ec)) continue;
    fs::create_directories((fresh / inside).parent_path(), ec);
    fs::copy(earlier / inside, fresh / inside,
             fs::copy_options::copy_symlinks | fs::copy_options::skip_existing, ec);
  }
}

}  // namespace

Staging::Staging(std::string target, std::string folder, const FolderKind& kind)
    : target_(std::move(target)), folder_(std::move(folder)), kind_(&kind) {}

Staging::Staging(Staging&& other) noexcept
    : target_(std::move(other.target_)),
      folder_(std::exchange(other.folder_, {})),
      kind_(other.kind_),
      files_(std::move(other.files_)) {}

Staging::~Staging() {
  if (folder_.empty()) return;
  std::error_code ignored;
  fs::remove_all(folder_, ignored);
}

Result<Staging> Staging::begin(const std::string& target, const FolderKind& kind) {
  std::error_code ec;
  fs::path place = fs::absolute(target, ec).lexically_normal();
  if (!place.has_filename()) place = place.parent_path();
  const fs::file_status status = fs::status(place, ec);
  if (fs::exists(status) && !fs::is_directory(status)) {
    return Diagnostic(Id::pack_target_is_a_file, {},
                      fmt::format("{} is a file; the {} needs a folder", target, kind.word))
        .hint("name another folder with --out");
  }
  if (fs::is_directory(status) && !fs::is_empty(place, ec) && !listed_files(place, kind)) {
    return Diagnostic(kind.not_of_this_kind, {},
                      fmt::format("{} holds files that Quoin did not make", target))
        .detail(fmt::format("putting the {} there would take their place", kind.word))
        .hint("name an empty or a new folder with --out");
  }
  fs::create_directories(place.parent_path(), ec);
  if (ec) return not_written(place.parent_path().string(), ec.message());
  const std::string stem = "." + place.filename().string() + part_mark;
  clear_leftovers(place.parent_path(), stem);
  const fs::path folder = place.parent_path() / (stem + std::to_string(::getpid()));
  fs::remove_all(folder, ec);
  if (!fs::create_directory(folder, ec)) return not_written(folder.string(), ec.message());
  return Staging(place.string(), folder.string(), kind);
}

Staging::Writer::Writer(std::string path, std::string shown)
    : shown_(std::move(shown)),
      file_(::open(path.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0666)),
      failed_(file_ < 0 ? errno : 0) {}

Staging::Writer::~Writer() {
  if (file_ >= 0) ::close(file_);
}

void Staging::Writer::write(std::string_view bytes) {
  while (!bytes.empty() && failed_ == 0) {
    const ssize_t n = ::write(file_, bytes.data(), bytes.size());
    if (n >= 0) {
      bytes.remove_prefix(static_cast<std::size_t>(n));
      written_ += static_cast<std::size_t>(n);
    } else if (errno != EINTR) {
      failed_ = errno;
    }
  }
}

Outcome Staging::Writer::close() {
  // Flushing starts now and is waited for once, when the pack is published.
  if (failed_ == 0) (void)::sync_file_range(file_, 0, 0, SYNC_FILE_RANGE_WRITE);
  if (file_ >= 0 && ::close(std::exchange(file_, -1)) != 0 && failed_ == 0) failed_ = errno;
  if (failed_ != 0) return not_written(shown_, std::strerror(failed_));
  return Done{};
}

Result<std::unique_ptr<Staging::Writer>> Staging::open(const std::string& path) const {
  const fs::path full = fs::path(folder_) / path;
  const std::string shown = (fs::path(target_) / path).string();
  std::error_code ec;
  fs::create_directories(full.parent_path(), ec);
  if (ec) return not_written(shown, ec.message());
  return std::make_unique<Writer>(full.string(), shown);
}

Outcome Staging::close(const std::string& path, Writer& writer) {
  Outcome closed = writer.close();
  if (closed) files_.push_back({path, writer.written_});
  return closed;
}

Outcome Staging::write(const std::string& path, const Bytes& bytes) {
  Result<std::unique_ptr<Writer>> writer = open(path);
  if (!writer) return std::move(writer).why();
  (*writer)->write(bytes);
  return close(path, **writer);
}

Result<Bytes> Staging::read(const std::string& path) const {
  std::ifstream in(fs::path(folder_) / path, std::ios::binary | std::ios::ate);
  Bytes bytes(in ? static_cast<std::size_t>(in.tellg()) : 0, '\0');
  in.seekg(0);
  in.read(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  if (!in) return not_written((fs::path(target_) / path).string(), "it cannot be read back");
  return bytes;
}

/// Waits for the disk with all files at once: each alone waits for it a millisecond.
Outcome Staging::flush_files() const {
  constexpr std::size_t side_by_side = 8;
  const auto flush_each = [this](std::size_t first) -> Outcome {
    for (std::size_t i = first; i < files_.size(); i += side_by_side) {
      Outcome flushed =
          flush(fs::path(folder_) / files_[i].path, (fs::path(target_) / files_[i].path).string());
      if (!flushed) return flushed;
    }
    return Done{};
  };
  std::vector<std::future<Outcome>> waiting;
  for (std::size_t i = 0; i < std::min(side_by_side, files_.size()); ++i) {
    waiting.push_back(std::async(std::launch::async, flush_each, i));
  }
  Outcome all = Done{};
  for (std::future<Outcome>& each : waiting) {
    Outcome flushed = each.get();
    if (!flushed && all) all = std::move(flushed);
  }
  return all;
}

Outcome Staging::publish() {
  if (Outcome flushed = flush_files(); !flushed) return flushed;
  std::error_code ec;
  if (!fs::exists(target_, ec)) {
    if (::rename(folder_.c_str(), target_.c_str()) != 0) {
      return not_written(target_, std::strerror(errno));
    }
    folder_.clear();
    return Done{};
  }
  keep_foreign_files(target_, folder_, *kind_);
  // Swapped in one step: at no moment is there no pack. The earlier one then goes with ~Staging.
  if (::renameat2(AT_FDCWD, folder_.c_str(), AT_FDCWD, target_.c_str(), RENAME_EXCHANGE) == 0) {
    return Done{};
  }
  // File systems without an exchange: the earlier pack steps aside and comes back on failure.
  const std::string aside = folder_ + "-earlier";
  if (::rename(target_.c_str(), aside.c_str()) != 0) {
    return not_written(target_, std::strerror(errno));
  }
  if (::rename(folder_.c_str(), target_.c_str()) != 0) {
    const int why = errno;
    if (::rename(aside.c_str(), target_.c_str()) != 0) {
      return not_written(target_,
                         fmt::format("{}; the earlier pack is in {}", std::strerror(why), aside));
    }
    return not_written(target_, std::strerror(why));
  }
  folder_ = aside;  // removed by ~Staging
  return Done{};
}

}  // namespace quoin::pack
