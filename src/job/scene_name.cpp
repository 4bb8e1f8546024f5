#include "job/scene_name.h"

#include "base/hash.h"

namespace quoin::job {
namespace {

void write_picture(PackedWriter& out, const Picture& picture) {
  out.string(picture.path());
  out.string(picture.facts().is_vector() ? sha256(picture.safe_svg()) : picture.key());
}

void write_items(PackedWriter& out, const std::vector<Item>& items) {
  out.number(items.size());
  for (const Item& item : items) {
    if (const auto* group = std::get_if<GroupItem>(&item.what)) write_items(out, group->items);
    if (const auto* shown = std::get_if<PictureItem>(&item.what)) {
      write_picture(out, *shown->picture);
    }
    const auto* text = std::get_if<TextItem>(&item.what);
    if (text == nullptr) continue;
    for (const TextRun& run : text->block.runs) {
      out.string(run.text);
      if (run.symbol && run.symbol->picture) write_picture(out, *run.symbol->picture);
    }
  }
}

}  // namespace

void write_contents(PackedWriter& out, const Scene& scene) { write_items(out, scene.items); }

}  // namespace quoin::job
