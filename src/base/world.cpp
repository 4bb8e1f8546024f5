#include "base/world.h"

#include <fcntl.h>
#include <sys/stat.h>
#include <unistd.h>

#include <algorithm>
#include <cerrno>
#include <cstring>
#include <filesystem>
#include <set>

namespace quoin {

SharedBytes::SharedBytes(Bytes whole)
    : owner_(std::make_shared<const Bytes>(std::move(whole))), part_(*owner_) {}

namespace fs = std::filesystem;
namespace {

ReadAnswer refused(ReadFailure why, std::string words = {}) {
  return {nullptr, why, std::move(words)};
}

class File {
 public:
  explicit File(const std::string& path)
      : fd_(::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK)) {}
  ~File() {
    if (fd_ >= 0) ::close(fd_);
  }
  File(const File&) = delete;
  File& operator=(const File&) = delete;
  [[nodiscard]] int fd() const { return fd_; }

 private:
  int fd_;
};

ReadAnswer read_open_file(int fd, std::size_t size_hint, std::size_t limit) {
  Bytes bytes;
  bytes.resize(std::min(size_hint + 1, limit + 1));
  std::size_t have = 0;
  for (;;) {
    if (have == bytes.size()) bytes.resize(std::min(bytes.size() * 2 + 4096, limit + 1));
    const ssize_t got = ::read(fd, bytes.data() + have, bytes.size() - have);
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) return refused(ReadFailure::unreadable, std::strerror(errno));
    if (got == 0) break;
    have += static_cast<std::size_t>(got);
    if (have > limit) return refused(ReadFailure::too_large);
  }
  bytes.resize(have);
  return {std::make_shared<const Bytes>(std::move(bytes)), ReadFailure::missing, {}};
}

class RealWorld : public World {
 public:
  explicit RealWorld(const std::string& root) {
    std::error_code ec;
    root_ = fs::weakly_canonical(root, ec);
    if (ec) root_ = root;
  }

  [[nodiscard]] ReadAnswer read(std::string_view path, std::size_t limit) const override {
    const std::string inside = normal_path(path);
    if (inside.empty()) return refused(ReadFailure::outside_the_game);
    std::error_code ec;
    const fs::path full = fs::canonical(root_ / inside, ec);
    if (ec) {
      const bool gone = ec == std::errc::no_such_file_or_directory ||
                        ec == std::errc::not_a_directory || ec == std::errc::invalid_argument;
      return refused(gone ? ReadFailure::missing : ReadFailure::unreadable, ec.message());
    }
    if (!is_inside(full)) return refused(ReadFailure::outside_the_game);
    const File file(full.string());
    if (file.fd() < 0) return refused(ReadFailure::unreadable, std::strerror(errno));
    struct stat facts {};
    if (::fstat(file.fd(), &facts) != 0) {
      return refused(ReadFailure::unreadable, std::strerror(errno));
    }
    if (S_ISDIR(facts.st_mode)) return refused(ReadFailure::is_a_folder);
    if (!S_ISREG(facts.st_mode)) return refused(ReadFailure::unreadable, "not a plain file");
    if (static_cast<std::size_t>(facts.st_size) > limit) return refused(ReadFailure::too_large);
    return read_open_file(file.fd(), static_cast<std::size_t>(facts.st_size), limit);
  }

  [[nodiscard]] std::vector<std::string> files_below(std::string_view folder) const override {
    std::vector<std::string> files;
    std::set<std::string> entered;
    const std::string inside = folder.empty() || folder == "." ? "." : normal_path(folder);
    if (!inside.empty()) list(inside == "." ? std::string{} : inside, files, entered);
    std::sort(files.begin(), files.end());
    return files;
  }

 private:
  [[nodiscard]] bool is_inside(const fs::path& full) const {
    const auto [end, unused] = std::mismatch(root_.begin(), root_.end(), full.begin(), full.end());
    return end == root_.end();
  }

  void list(const std::string& folder, std::vector<std::string>& files,
            std::set<std::string>& entered) const {
    std::error_code ec;
    const fs::path real = fs::canonical(root_ / folder, ec);
    if (ec || !is_inside(real) || !entered.insert(real.string()).second) return;
    for (fs::directory_iterator it(real, fs::directory_options::skip_permission_denied, ec), end;
         !ec && it != end; it.increment(ec)) {
      const std::string name = it->path().filename().string();
      const std::string path = folder.empty() ? name : folder + "/" + name;
      std::error_code kind_error;
      if (it->is_directory(kind_error))
        list(path, files, entered);
      else if (it->is_regular_file(kind_error))
        files.push_back(path);
    }
  }

  fs::path root_;
};

}  // namespace

std::unique_ptr<World> real_world(std::string root) { return std::make_unique<RealWorld>(root); }

MemoryWorld::MemoryWorld(std::map<std::string, Bytes, std::less<>> files) {
  for (auto& [path, bytes] : files) put(path, std::move(bytes));
}

void MemoryWorld::put(std::string path, Bytes bytes) {
  files_[std::move(path)] = std::make_shared<const Bytes>(std::move(bytes));
}

ReadAnswer MemoryWorld::read(std::string_view path, std::size_t limit) const {
  const std::string inside = normal_path(path);
  if (inside.empty()) return refused(ReadFailure::outside_the_game);
  const auto found = files_.find(inside);
  if (found == files_.end()) {
    return refused(files_below(inside).empty() ? ReadFailure::missing : ReadFailure::is_a_folder);
  }
  if (found->second->size() > limit) return refused(ReadFailure::too_large);
  return {found->second, ReadFailure::missing, {}};
}

std::vector<std::string> MemoryWorld::files_below(std::string_view folder) const {
  const std::string start = folder.empty() || folder == "." ? "" : normal_path(folder) + "/";
  std::vector<std::string> files;
  for (const auto& [path, bytes] : files_) {
    if (path.starts_with(start)) files.push_back(path);
  }
  return files;
}

std::string normal_path(std::string_view path) {
  if (path.empty() || path.front() == '/' || path.find('\0') != std::string_view::npos) return {};
  std::vector<std::string_view> parts;
  while (!path.empty()) {
    const std::size_t slash = path.find('/');
    const std::string_view part = path.substr(0, slash);
    path = slash == std::string_view::npos ? std::string_view{} : path.substr(slash + 1);
    if (part.empty() || part == ".") continue;
    if (part != "..")
      parts.push_back(part);
    else if (parts.empty())
      return {};
    else
      parts.pop_back();
  }
  std::string normal;
  for (const std::string_view part : parts) {
    if (!normal.empty()) normal += '/';
    normal += part;
  }
  return normal;
}

std::string explain(const ReadAnswer& answer, std::string_view path) {
  const std::string name(path);
  switch (answer.failure) {
    case ReadFailure::missing:
      return "there is no file " + name;
    case ReadFailure::unreadable:
      return "cannot read " + name + ": " + answer.system_words;
    case ReadFailure::is_a_folder:
      return name + " is a folder, not a file";
    case ReadFailure::too_large:
      return name + " is larger than a file of a game may be (256 MiB)";
    case ReadFailure::outside_the_game:
      return name + " lies outside the game folder";
  }
  return name;
}

}  // namespace quoin
