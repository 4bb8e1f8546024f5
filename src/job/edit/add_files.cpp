#include "job/edit/add_files.h"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <filesystem>
#include <vector>

#include "job/edit/disk.h"

namespace quoin::job {
namespace fs = std::filesystem;
namespace {

Diagnostic cannot_add(const std::string& path, int fault) {
  return Diagnostic(Id::pack_not_written, {},
                    fmt::format("cannot write {}: {}", path, std::strerror(fault)))
      .detail("the folder is as it was")
      .hint("make room on the disk, or allow writing in the folder, then try it again");
}

Diagnostic there_already(const std::string& path) {
  return Diagnostic(Id::new_folder_not_empty, {FileName(path)},
                    fmt::format("{} is there already", path))
      .detail("the new game would take its place")
      .hint("move it elsewhere, or begin in an empty folder");
}

/// What was made so far; taken away again unless it is kept.
class Added {
 public:
  explicit Added(fs::path folder) : folder_(std::move(folder)) {}
  ~Added() {
    std::error_code ignored;
    for (auto each = made_.rbegin(); each != made_.rend(); ++each) fs::remove(*each, ignored);
  }
  Added(const Added&) = delete;
  Added& operator=(const Added&) = delete;

  quoin::Outcome add(const std::string& path, const Bytes& bytes) {
    if (quoin::Outcome folders = make_folders(path); !folders) return folders;
    const std::string place = (folder_ / path).string();
    const int number =
        ::open(place.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_NOFOLLOW | O_CLOEXEC, 0666);
    if (number < 0 && errno == EEXIST) {
      const ReadAnswer there = real_world(folder_.string())->read(path, largest_file);
      if (there.ok() && *there.bytes == bytes) return Done{};
      return there_already(path);
    }
    if (number < 0) return cannot_add(path, errno);
    made_.push_back(place);
    const OpenFile file(number);
    const int fault = write_all(number, bytes);
    if (fault != 0) return cannot_add(path, fault);
    if (::fsync(number) != 0 && errno != EINVAL) return cannot_add(path, errno);
    return Done{};
  }
  void keep() { made_.clear(); }

 private:
  quoin::Outcome make_folders(const std::string& path) {
    fs::path place = folder_;
    for (const fs::path& step : fs::path(path).parent_path()) {
      place /= step;
      std::error_code fault;
      if (fs::create_directory(place, fault)) made_.push_back(place);
      if (fault) return cannot_add(path, fault.value());
      const fs::path real = fs::canonical(place, fault);
      if (fault) return cannot_add(path, fault.value());
      const auto [end, unused] =
          std::mismatch(folder_.begin(), folder_.end(), real.begin(), real.end());
      if (end == folder_.end()) continue;
      return Diagnostic(Id::new_folder_not_empty, {},
                        fmt::format("{} leads out of the folder", step.string()))
          .hint("begin in an empty folder");
    }
    return Done{};
  }

  fs::path folder_;
  std::vector<fs::path> made_;
};

/// What lies in folders first, `last` last: whoever watches the folder sees no half of a game.
std::vector<std::pair<std::string, const Bytes*>> in_order_of_writing(
    const std::map<std::string, Bytes>& files, const std::string& last) {
  std::vector<std::pair<std::string, const Bytes*>> all;
  for (const auto& [path, bytes] : files) all.emplace_back(path, &bytes);
  const auto rank = [&](const auto& one) {
    if (one.first == last) return 2;
    return one.first.find('/') == std::string::npos ? 1 : 0;
  };
  std::ranges::stable_sort(all, {}, rank);
  return all;
}

}  // namespace

quoin::Outcome add_files(const std::string& folder, const std::map<std::string, Bytes>& files,
                         const std::string& last) {
  std::error_code fault;
  const fs::path place = fs::canonical(folder, fault);
  if (fault) return cannot_add(folder, fault.value());
  for (const auto& [path, bytes] : files) {
    const ReadAnswer there = real_world(place.string())->read(path, largest_file);
    const bool is_other = there.ok() ? *there.bytes != bytes
                                     : there.failure != ReadFailure::missing &&
                                           there.failure != ReadFailure::outside_the_game;
    if (is_other) return there_already(path);
  }
  Added added(place);
  for (const auto& [path, bytes] : in_order_of_writing(files, last)) {
    if (quoin::Outcome one = added.add(path, *bytes); !one) return one;
  }
  added.keep();
  return Done{};
}

}  // namespace quoin::job
