#pragma once
#include <map>
#include <memory>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "formats/pdf/pdf.h"
#include "job/box_shown.h"
#include "job/workshop.h"
#include "making/tolerance.h"
#include "pack/previews.h"
#include "scene/low_ink.h"

namespace quoin::job {

/// A picture file that the page of a share shows.
struct PageImage {
  std::string name;  ///< without folder and ending
  Bytes png;
};

/// All faces of a game, drawn once in full colour and once in low ink, and what is kept of them on
/// the way.
struct DrawnFaces {
  std::optional<DrawnSymbols> full, low;
  std::vector<std::string> digests;            ///< of the pixels of each drawing
  std::vector<std::array<double, 4>> low_ink;  ///< what each takes in low ink, as `ink_on` has it
  std::map<std::size_t, Scene> for_guide;      ///< as `faces_for_guide` names them, texts set
  std::optional<Scene> first_low;              ///< the first of them in low ink
  std::optional<TopCard> top_card;
  std::vector<Bytes> contact_sheets;
  std::vector<PageImage> samples_full, samples_low;  ///< the same cards
};

/// Draws them. What is found while drawing is the shop's and added to `found`; nothing drawn when
/// it was stopped or a picture failed. `cache` may be null.
[[nodiscard]] DrawnFaces draw_faces_twice(Workshop& shop, const game::Game& game, LowInk& low_ink,
                                          ImageCache* cache, Watcher& watcher, Diagnostics& found);

}  // namespace quoin::job
