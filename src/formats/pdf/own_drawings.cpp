#include "formats/pdf/own_drawings.h"

#include <algorithm>

namespace quoin::pdf {
namespace {

using Items = std::vector<Item>;

/// The first item after `from` that lies on another layer.
Items::const_iterator end_of_run(Items::const_iterator from, Items::const_iterator end) {
  return std::find_if(from, end, [&](const Item& item) { return item.layer != from->layer; });
}

}  // namespace

OwnDrawings record_own(const std::vector<Page>& pages, PictureShelf& shelf) {
  OwnDrawings own;
  PageRecorder recorder(shelf);
  bool any = false;
  for (const Page& page : pages) {
    std::vector<OwnRun>& runs = own.of_page.emplace_back();
    const Items& items = page.own.items;
    for (auto from = items.begin(); from != items.end();) {
      const auto to = end_of_run(from, items.end());
      const int recorded = recorder.page(page.media, [&](Canvas& canvas) {
        std::for_each(from, to, [&](const Item& item) { draw(item, canvas); });
      });
      runs.push_back({from->layer, recorded});
      any = true;
      from = to;
    }
  }
  if (any) own.recording = recorder.finish();
  return own;
}

}  // namespace quoin::pdf
