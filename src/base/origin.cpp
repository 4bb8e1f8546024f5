#include "base/origin.h"

#include <mutex>
#include <set>
#include <tuple>

namespace quoin {

FileName::FileName(std::string_view name) {
  static std::mutex mutex;
  static std::set<std::string, std::less<>> names;
  const std::lock_guard lock(mutex);
  auto found = names.find(name);
  if (found == names.end()) found = names.emplace(name).first;
  name_ = &*found;
}

const std::string& FileName::str() const {
  static const std::string nowhere;
  return name_ == nullptr ? nowhere : *name_;
}

std::string to_string(const Origin& origin) {
  std::string text = origin.file.str();
  if (origin.line > 0) text += ":" + std::to_string(origin.line);
  if (origin.line > 0 && origin.column > 0) text += ":" + std::to_string(origin.column);
  return text;
}

bool comes_before(const Origin& a, const Origin& b) {
  return std::tie(a.file.str(), a.line, a.column) < std::tie(b.file.str(), b.line, b.column);
}

}  // namespace quoin
