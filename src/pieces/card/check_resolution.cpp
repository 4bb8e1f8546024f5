#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "pieces/card/check_parts.h"

namespace quoin::pieces {
namespace {

/// A picture's pixels over the stretch of paper that they cover, along its weaker side.
struct Sharpness {
  double pixels = 0;
  Mm covered;
  bool along_width = true;
  [[nodiscard]] double ppi() const { return pixels / (covered.value / mm_per_inch); }
};

Sharpness sharpness(const PictureFacts& facts, Size placed, const Affine& map) {
  const Sharpness across{facts.width, length(map(Vec{placed.width, Mm{0}})), true};
  const Sharpness down{facts.height, length(map(Vec{Mm{0}, placed.height})), false};
  // The two differ by rounding for an undistorted picture; its width is then what makers know.
  return across.ppi() <= down.ppi() * 1.005 ? across : down;
}

/// Which pictures were reported for which elements: each once, its weakest use.
struct Weakest {
  const Leaf* leaf = nullptr;
  Sharpness sharpness;
  Rect covers;
};
using Uses = std::map<std::pair<std::string, std::string>, Weakest>;

void note_use(Uses& uses, const Leaf& leaf, const Picture& picture, Size placed, Rect covers) {
  if (picture.facts().is_vector()) return;
  const Sharpness found = sharpness(picture.facts(), placed, leaf.map);
  if (!(found.covered > Mm{0})) return;
  Weakest& weakest = uses[{leaf.element(), picture.path()}];
  if (weakest.leaf != nullptr && weakest.sharpness.ppi() <= found.ppi()) return;
  weakest = {&leaf, found, covers};
}

void note_symbols(Uses& uses, const Leaf& leaf) {
  const TextItem& text = *leaf.text();
  const Mm type_size = text.set.facts().type_size;
  for (const TextRun& run : text.block.runs) {
    if (!run.symbol || !run.symbol->picture) continue;
    const PictureFacts& facts = run.symbol->picture->facts();
    if (facts.height <= 0) continue;
    const Mm height = type_size * run.symbol->scale;
    const Size placed{height * (facts.width / facts.height), height};
    note_use(uses, leaf, *run.symbol->picture, placed, Rect{});
  }
}

std::string details(const Sharpness& sharp, bool reaches_bleed, double needed, double good_ppi) {
  return fmt::format("the picture is {} px {} and covers {}{}; {} ppi needs {} px",
                     plain(sharp.pixels, 0), sharp.along_width ? "wide" : "high",
                     in_mm(sharp.covered), reaches_bleed ? " with its bleed" : "",
                     plain(good_ppi, 0), plain(needed, 0));
}

void report_weak(const Inspection& inspection, const std::string& path, const Weakest& weakest) {
  const game::Limits& limits = inspection.limits;
  const Sharpness& sharp = weakest.sharpness;
  // Half a pixel of rounding in the maker's picture is forgiven.
  const double good = (sharp.pixels + 0.5) / sharp.pixels * sharp.ppi();
  if (good >= limits.good_ppi) return;
  const bool is_poor = sharp.ppi() < limits.poor_ppi;
  const double needed = std::ceil(sharp.covered.value / mm_per_inch * limits.good_ppi - 1e-6);
  const bool reaches_bleed = !lies_in(weakest.covers, Rect{{}, inspection.look.trim});
  inspection
      .report(Id::art_low_resolution, *weakest.leaf,
              fmt::format("{} prints at {} ppi; {}", path, plain(std::floor(sharp.ppi() + 1e-6), 0),
                          is_poor ? "its pixels will show as steps" : "edges will look soft"))
      .detail(details(sharp, reaches_bleed, needed, limits.good_ppi))
      .hint(
          fmt::format("redraw it as vectors, or use a picture of {} px or more", plain(needed, 0)));
}

}  // namespace

void check_resolution(const Inspection& inspection) {
  Uses uses;
  for (const Leaf& leaf : inspection.leaves) {
    if (leaf.text() != nullptr) note_symbols(uses, leaf);
    if (const PictureItem* picture = leaf.picture(); picture != nullptr && picture->picture) {
      note_use(uses, leaf, *picture->picture, picture->to.size, visible_ink(leaf).value_or(Rect{}));
    }
  }
  for (const auto& [use, weakest] : uses) report_weak(inspection, use.second, weakest);
}

}  // namespace quoin::pieces
