#include "job/share/used_files.h"

namespace quoin::job {
namespace {

void see_items(const std::vector<Item>& items, const std::function<void(const Picture&)>& see) {
  for (const Item& item : items) {
    if (const auto* group = std::get_if<GroupItem>(&item.what)) see_items(group->items, see);
    if (const auto* shown = std::get_if<PictureItem>(&item.what)) see(*shown->picture);
    const auto* text = std::get_if<TextItem>(&item.what);
    if (text == nullptr) continue;
    for (const TextRun& run : text->block.runs) {
      if (run.symbol && run.symbol->picture) see(*run.symbol->picture);
    }
  }
}

}  // namespace

void for_each_picture(const Scene& scene, const std::function<void(const Picture&)>& see) {
  see_items(scene.items, see);
}

std::vector<std::string> shown_by(const Picture& picture, const World& world) {
  std::vector<std::string> files;
  const Bytes& text = picture.bytes();
  if (!picture.facts().is_vector()) return files;
  const std::string folder = picture.path().substr(0, picture.path().rfind('/') + 1);
  for (std::size_t at = text.find("href"); at != Bytes::npos; at = text.find("href", at + 4)) {
    const std::size_t open = text.find_first_of("\"'", at);
    if (open == Bytes::npos) break;
    const std::size_t close = text.find(text[open], open + 1);
    if (close == Bytes::npos) break;
    std::string name = text.substr(open + 1, close - open - 1);
    name.resize(std::min(name.find('#'), name.size()));
    const std::string path = normal_path(folder + name);
    if (name.empty() || path.empty() || name.find(':') != std::string::npos) continue;
    if (world.read(path, largest_file).ok()) files.push_back(path);
  }
  return files;
}

void add_used(const Scene& scene, const std::string& piece, const World& world, UsedFiles& used) {
  for_each_picture(scene, [&](const Picture& picture) {
    const auto [known, is_new] = used.try_emplace(picture.path());
    const bool is_first_here = known->second.insert(piece).second;
    if (!is_first_here) return;
    for (const std::string& file : shown_by(picture, world)) used[file].insert(piece);
  });
}

}  // namespace quoin::job
