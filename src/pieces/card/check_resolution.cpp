#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "pieces/card/check_parts.h"
#include "pieces/card/picture_uses.h"

namespace quoin::pieces {
namespace {

/// The use along the side that has fewer pixels an inch.
PictureUse weaker_side(const Picture& picture, Size placed, const Affine& map) {
  const PictureFacts& facts = picture.facts();
  PictureUse across, down;
  across.pixels = facts.width;
  across.covered = length(map(Vec{placed.width, Mm{0}}));
  down.pixels = facts.height;
  down.covered = length(map(Vec{Mm{0}, placed.height}));
  down.along_width = false;
  // The two differ by rounding for an undistorted picture; its width is then what makers know.
  PictureUse use = across.ppi() <= down.ppi() * 1.005 ? across : down;
  use.path = picture.path();
  use.printed = {across.covered, down.covered};
  return use;
}

/// Which pictures were met in which elements: each once, its weakest use.
using Uses = std::map<std::pair<std::string, std::string>, PictureUse>;

void note_use(Uses& uses, const std::vector<Leaf>& leaves, std::size_t leaf, const Picture& picture,
              Size placed, Rect covers) {
  if (picture.facts().is_vector()) return;
  PictureUse found = weaker_side(picture, placed, leaves[leaf].map);
  if (!(found.covered > Mm{0})) return;
  found.element = leaves[leaf].element();
  found.covers = covers;
  found.leaf = leaf;
  const auto [known, is_new] = uses.try_emplace({found.element, found.path}, found);
  if (!is_new && found.ppi() < known->second.ppi()) known->second = found;
}

void note_symbols(Uses& uses, const std::vector<Leaf>& leaves, std::size_t leaf) {
  const TextItem& text = *leaves[leaf].text();
  const Mm type_size = text.set.facts().type_size;
  for (const TextRun& run : text.block.runs) {
    if (!run.symbol || !run.symbol->picture) continue;
    const PictureFacts& facts = run.symbol->picture->facts();
    if (facts.height <= 0) continue;
    const Mm height = type_size * run.symbol->scale;
    const Size placed{height * (facts.width / facts.height), height};
    note_use(uses, leaves, leaf, *run.symbol->picture, placed, Rect{});
  }
}

std::vector<PictureUse> uses_on(const std::vector<Leaf>& leaves) {
  Uses uses;
  for (std::size_t i = 0; i < leaves.size(); ++i) {
    if (leaves[i].text() != nullptr) note_symbols(uses, leaves, i);
    const PictureItem* picture = leaves[i].picture();
    if (picture != nullptr && picture->picture) {
      note_use(uses, leaves, i, *picture->picture, picture->to.size,
               visible_ink(leaves[i]).value_or(Rect{}));
    }
  }
  std::vector<PictureUse> all;
  for (auto& [key, use] : uses) all.push_back(std::move(use));
  return all;
}

std::string details(const PictureUse& use, bool reaches_bleed, double needed, double good_ppi) {
  return fmt::format("the picture is {} px {} and covers {}{}; {} ppi needs {} px",
                     plain(use.pixels, 0), use.along_width ? "wide" : "high", in_mm(use.covered),
                     reaches_bleed ? " with its bleed" : "", plain(good_ppi, 0), plain(needed, 0));
}

void report_weak(const Inspection& inspection, const PictureUse& use) {
  const game::Limits& limits = inspection.limits;
  if (use.reaches(limits.good_ppi)) return;
  const bool is_poor = use.ppi() < limits.poor_ppi;
  const double needed = std::ceil(use.covered.value / mm_per_inch * limits.good_ppi - 1e-6);
  const bool reaches_bleed = !lies_in(use.covers, Rect{{}, inspection.look.trim});
  inspection
      .report(
          Id::art_low_resolution, inspection.leaves[use.leaf],
          fmt::format("{} prints at {} ppi; {}", use.path, plain(std::floor(use.ppi() + 1e-6), 0),
                      is_poor ? "its pixels will show as steps" : "edges will look soft"))
      .detail(details(use, reaches_bleed, needed, limits.good_ppi))
      .hint(fmt::format("redraw it as vectors with quoin trace, or use a picture of {} px or more",
                        plain(needed, 0)));
}

}  // namespace

std::vector<PictureUse> picture_uses(const Scene& scene) { return uses_on(leaves_of(scene)); }

void check_resolution(const Inspection& inspection) {
  for (const PictureUse& use : uses_on(inspection.leaves)) report_weak(inspection, use);
}

}  // namespace quoin::pieces
