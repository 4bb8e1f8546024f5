#include "job/edit/keep_profile.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <cerrno>
#include <cstdio>
#include <cstring>
#include <filesystem>
#include <stdexcept>

#include "job/edit/disk.h"

namespace quoin::job {
namespace {

Diagnostic profile_not_written(const std::string& path, int why) {
  return {Id::press_profile_not_written,
          {},
          fmt::format("{} was not written: {}", path, std::strerror(why))};
}

/// Writes a file that is not there yet and waits for the disk; 0, or the system's number.
int write_new_file(const std::string& path, const Bytes& text) {
  const int flags = O_WRONLY | O_CREAT | O_TRUNC | O_CLOEXEC | O_NOFOLLOW;
  const OpenFile file(::open(path.c_str(), flags, 0666));
  if (!file.is_open()) return errno;
  if (const int why = write_all(file.descriptor(), text); why != 0) return why;
  return ::fsync(file.descriptor()) != 0 ? errno : 0;
}

}  // namespace

quoin::Outcome keep_profile(const std::string& path, const press::Profile& profile) {
  const Bytes text = press::profile_text(profile);
  if (!press::read_profile(text, FileName(path))) {
    throw std::logic_error("a printer's file was about to be written that cannot be read");
  }
  std::error_code failed;
  const std::filesystem::path folder = std::filesystem::path(path).parent_path();
  if (!folder.empty()) std::filesystem::create_directories(folder, failed);
  if (failed) return profile_not_written(path, failed.value());
  const std::string beside = path + ".new";
  int why = write_new_file(beside, text);
  if (why == 0 && std::rename(beside.c_str(), path.c_str()) != 0) why = errno;
  if (why != 0) {
    ::unlink(beside.c_str());
    return profile_not_written(path, why);
  }
  return Done{};
}

}  // namespace quoin::job
