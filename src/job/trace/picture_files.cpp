#include "job/trace/picture_files.h"

#include <fmt/format.h>

#include <algorithm>
#include <atomic>
#include <cerrno>
#include <cstring>
#include <filesystem>
#include <fstream>
#include <mutex>
#include <thread>

namespace quoin::job {
namespace fs = std::filesystem;
namespace {

Diagnostic not_written(const std::string& path, const std::string& why) {
  return Diagnostic(Id::trace_not_written, {FileName(path)},
                    fmt::format("cannot write {}: {}", path, why))
      .hint("make room on the disk, or name another folder with -o");
}

}  // namespace

PictureOnDisk::PictureOnDisk(const std::string& picture) {
  std::error_code fault;
  const fs::path real = fs::canonical(picture, fault);
  const fs::path path = fault ? fs::path(picture) : real;
  world_ = real_world(path.parent_path().empty() ? "." : path.parent_path().string());
  name_ = path.filename().string();
}

std::shared_ptr<const Raster> pixels_of(const World& world, const std::string& path,
                                        const std::string& shown, Diagnostics& found) {
  const Origin origin{FileName(shown)};
  PictureShelf shelf(world);
  const auto picture = shelf.open(path, origin, found).or_report(found);
  if (!picture) return nullptr;
  if ((*picture)->facts().is_vector()) {
    found.push_back(Diagnostic(Id::trace_already_vectors, origin,
                               fmt::format("{} is drawn in vectors already", shown))
                        .hint("use it as it is"));
    return nullptr;
  }
  return shelf.pixels(*picture).or_report(found).value_or(nullptr);
}

std::optional<Diagnostic> write_whole(const std::string& path, const Bytes& bytes) {
  std::error_code fault;
  const fs::path folder = fs::path(path).parent_path();
  if (!folder.empty()) fs::create_directories(folder, fault);
  if (fault) return not_written(path, fault.message());
  const std::string beside = path + ".part";
  {
    std::ofstream file(beside, std::ios::binary | std::ios::trunc);
    file.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    file.flush();
    if (!file) {
      const std::string why = std::strerror(errno);
      fs::remove(beside, fault);
      return not_written(path, why);
    }
  }
  fs::rename(beside, path, fault);
  if (!fault) return std::nullopt;
  const std::string why = fault.message();
  fs::remove(beside, fault);
  return not_written(path, why);
}

Diagnostic file_there(const std::string& path, const std::string& picture) {
  return Diagnostic(Id::trace_file_there, {FileName(picture)},
                    fmt::format("{} is there already, and was left as it is", path))
      .hint("name another place with -o, or move that file away");
}

Diagnostic stopped_before_done() {
  return Diagnostic(Id::pack_cancelled, {}, "the work was stopped before it was done");
}

bool is_one_of(const std::vector<std::string>& pictures, const std::string& path) {
  std::error_code ignored;
  return std::any_of(pictures.begin(), pictures.end(), [&](const std::string& one) {
    return one == path || fs::equivalent(one, path, ignored);
  });
}

void work_through(int count, std::string_view work, Watcher& watcher,
                  const std::function<void(int)>& one, const std::function<void(int)>& stopped) {
  std::mutex counting;
  int done = 0;
  std::atomic<bool> stop{false};
  (void)watcher.at(work, 0, count);
  on_all_cores(count, [&](int i) {
    if (stop.load()) {
      stopped(i);
      return;
    }
    one(i);
    const std::lock_guard lock(counting);
    if (!watcher.at(work, ++done, count)) stop = true;
  });
}

void on_all_cores(int count, const std::function<void(int)>& work) {
  std::atomic<int> next{0};
  const auto some = [&] {
    for (int i = next++; i < count; i = next++) work(i);
  };
  const int cores = std::max(1, static_cast<int>(std::thread::hardware_concurrency()));
  std::vector<std::jthread> others;
  for (int i = 1; i < std::min(cores, count); ++i) others.emplace_back(some);
  some();
}

}  // namespace quoin::job
