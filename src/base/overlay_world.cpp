#include "base/overlay_world.h"

#include <algorithm>

namespace quoin {

OverlayWorld::OverlayWorld(std::shared_ptr<const World> below, Texts texts)
    : below_(std::move(below)), texts_(std::move(texts)) {}

ReadAnswer OverlayWorld::read(std::string_view path, std::size_t limit) const {
  const std::string inside = normal_path(path);
  const auto found = texts_.find(inside);
  if (inside.empty() || found == texts_.end()) return below_->read(path, limit);
  if (!found->second) return {nullptr, ReadFailure::missing, {}};
  if (found->second->size() > limit) return {nullptr, ReadFailure::too_large, {}};
  return {found->second, ReadFailure::missing, {}};
}

std::vector<std::string> OverlayWorld::files_below(std::string_view folder) const {
  std::vector<std::string> files = below_->files_below(folder);
  const std::string start = folder.empty() || folder == "." ? "" : normal_path(folder) + "/";
  if (start == "/") return files;
  for (const auto& [path, text] : texts_) {
    if (!path.starts_with(start)) continue;
    const auto at = std::lower_bound(files.begin(), files.end(), path);
    const bool listed = at != files.end() && *at == path;
    if (text && !listed) files.insert(at, path);
    if (!text && listed) files.erase(at);
  }
  return files;
}

}  // namespace quoin
