#include "media/text/memory_file.h"

#include <sys/mman.h>
#include <unistd.h>

#include <cerrno>
#include <map>
#include <mutex>
#include <system_error>

#include "base/hash.h"

namespace quoin {
namespace {

bool write_all(int descriptor, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t written = ::write(descriptor, bytes.data(), bytes.size());
    if (written < 0 && errno == EINTR) continue;
    if (written <= 0) return false;
    bytes.remove_prefix(static_cast<std::size_t>(written));
  }
  return true;
}

}  // namespace

std::string memory_file(std::string_view bytes, std::string& why) {
  static std::mutex mutex;
  static std::map<std::string, std::string> names;
  const std::lock_guard lock(mutex);
  const std::string key = sha256(bytes);
  if (const auto known = names.find(key); known != names.end()) return known->second;
  const int descriptor = ::memfd_create("quoin-font", MFD_CLOEXEC);
  if (descriptor < 0 || !write_all(descriptor, bytes)) {
    why = std::generic_category().message(errno);
    if (descriptor >= 0) ::close(descriptor);
    return "";
  }
  return names[key] = "/proc/self/fd/" + std::to_string(descriptor);
}

}  // namespace quoin
