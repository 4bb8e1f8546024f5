#include "formats/pdf/own_drawings.h"

#include <algorithm>

#include "formats/line_work.h"

namespace quoin::pdf {
namespace {

using Items = std::vector<Item>;

/// The first item after `from` that lies on another layer.
Items::const_iterator end_of_run(Items::const_iterator from, Items::const_iterator end) {
  return std::find_if(from, end, [&](const Item& item) { return item.layer != from->layer; });
}

}  // namespace

OwnDrawings record_own(const Document& document, PictureShelf& shelf) {
  OwnDrawings own;
  PageRecorder recorder(shelf);
  bool any = false;
  const bool in_spot_colours = document.line_work == LineWork::spot_colours;
  for (const Page& page : document.pages) {
    std::vector<OwnRun>& runs = own.of_page.emplace_back();
    const Items& items = page.own.items;
    for (auto from = items.begin(); from != items.end();) {
      const auto to = end_of_run(from, items.end());
      if (in_spot_colours && is_line_work(from->layer)) {
        runs.push_back({from->layer, 0, {from, to}});
      } else {
        const int recorded = recorder.page(page.media, [&](Canvas& canvas) {
          std::for_each(from, to, [&](const Item& item) { draw(item, canvas); });
        });
        runs.push_back({from->layer, recorded, {}});
        any = true;
      }
      from = to;
    }
  }
  if (any) own.recording = recorder.finish();
  return own;
}

}  // namespace quoin::pdf
