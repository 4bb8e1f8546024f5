#include "pack/share/archive.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <stdio.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <utility>

#include "formats/zip/zip.h"
#include "pack/staging.h"

namespace quoin::pack {
namespace fs = std::filesystem;
namespace {

Diagnostic no_archive(const std::string& path, const std::string& words) {
  return Diagnostic(Id::share_not_written, {}, fmt::format("cannot write {}: {}", path, words))
      .detail("the earlier share, if there was one, is as it was")
      .hint("make room on the disk or name another folder with --out, then run it again");
}

bool is_of_a_share(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  const Bytes bytes{std::istreambuf_iterator<char>(in), std::istreambuf_iterator<char>()};
  const auto paths = paths_in_zip(bytes);
  return paths && std::any_of(paths->begin(), paths->end(), [](const std::string& one) {
           return one.ends_with(std::string("/") + manifest_name);
         });
}

}  // namespace

Archive::Archive(std::string target, std::string part)
    : target_(std::move(target)), part_(std::move(part)) {}

Archive::Archive(Archive&& other) noexcept
    : target_(std::move(other.target_)), part_(std::exchange(other.part_, {})) {}

Archive::~Archive() {
  if (!part_.empty()) (void)::unlink(part_.c_str());
}

Result<Archive> Archive::begin(const std::string& target) {
  std::error_code ec;
  const fs::path place = fs::absolute(target, ec).lexically_normal();
  if (fs::exists(place, ec) && !is_of_a_share(place)) {
    return Diagnostic(Id::share_target_not_a_share, {},
                      fmt::format("{} is something else than the archive of a share", target))
        .detail("putting the archive there would take its place")
        .hint("name another folder with --out, or move that file elsewhere");
  }
  const std::string name = fmt::format(".{}.quoin-part-{}", place.filename().string(), ::getpid());
  return Archive(place.string(), (place.parent_path() / name).string());
}

Outcome Archive::write(const Bytes& bytes) {
  const int file = ::open(part_.c_str(), O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC, 0666);
  if (file < 0) return no_archive(target_, std::strerror(errno));
  int failed = 0;
  for (std::size_t at = 0; at < bytes.size() && failed == 0;) {
    const ssize_t written = ::write(file, bytes.data() + at, bytes.size() - at);
    if (written >= 0) {
      at += static_cast<std::size_t>(written);
    } else if (errno != EINTR) {
      failed = errno;
    }
  }
  if (failed == 0 && ::fsync(file) != 0 && errno != EINVAL) failed = errno;
  if (::close(file) != 0 && failed == 0) failed = errno;
  if (failed != 0) return no_archive(target_, std::strerror(failed));
  return Done{};
}

Outcome Archive::publish() {
  if (::rename(part_.c_str(), target_.c_str()) != 0) {
    return no_archive(target_, std::strerror(errno));
  }
  part_.clear();
  return Done{};
}

}  // namespace quoin::pack
