#include <fmt/format.h>

#include <algorithm>

#include "pack/box_document.h"
#include "sheets/wording.h"

namespace quoin::pack {
namespace {

std::string block_words(const fold::Block& size) {
  return fmt::format("{:.1f} x {:.1f} x {:.1f} mm", size.width.value, size.height.value,
                     size.depth.value);
}

/// "0.6 to 2.7": what a deck has to spare on one axis, from the thickest to the thinnest.
std::string spare_words(Mm room, Mm thickest, Mm thinnest) {
  const double low = (room - thickest).value, high = (room - thinnest).value;
  if (high - low < 0.05) return fmt::format("{:.1f}", low);
  return fmt::format("{:.1f} to {:.1f}", low, high);
}

std::string clearance_words(const pieces::Box& box) {
  const fold::Block &room = box.fit.clear.size, low = pieces::thinnest(box.deck),
                    high = pieces::thickest(box.deck);
  return fmt::format("{} mm in width, {} in height and {} in depth",
                     spare_words(room.width, high.width, low.width),
                     spare_words(room.height, high.height, low.height),
                     spare_words(room.depth, high.depth, low.depth));
}

/// What was measured where the closed box meets itself.
std::string closing_words(const pieces::Box& box) {
  std::string words;
  const auto add = [&](const std::string& more) { words += (words.empty() ? "" : ", ") + more; };
  const pieces::Fit& fit = box.fit;
  const auto gap = std::max_element(fit.gaps.begin(), fit.gaps.end(),
                                    [](const auto& a, const auto& b) { return a.width < b.width; });
  if (gap != fit.gaps.end()) add(fmt::format("largest gap {:.2f} mm", gap->width.value));
  double glued = 0;
  for (const fold::Contact& seam : fit.seams) glued += seam.area;
  if (!fit.seams.empty()) add(fmt::format("{:.0f} mm² glued", glued));
  const auto grip =
      std::min_element(fit.grips.begin(), fit.grips.end(),
                       [](const auto& a, const auto& b) { return a.depth < b.depth; });
  if (grip != fit.grips.end()) add(fmt::format("tuck flaps grip {:.1f} mm", grip->depth.value));
  return words;
}

}  // namespace

std::string box_words(const pieces::Box& box) {
  return fmt::format("{} for a pile of {:.1f} to {:.1f} mm, {} inside", box.kind->title,
                     box.deck.height.low.value, box.deck.height.high.value,
                     block_words(box.fit.clear.size));
}

std::vector<std::string> box_lines(const pieces::Box& box, const BoxSheets& sheets,
                                   const std::string& paper) {
  std::vector<std::string> lines;
  lines.push_back(box_words(box) + ", " + block_words(box.fit.outside) + " outside");
  lines.push_back(fmt::format("room to spare {}; {}", clearance_words(box), closing_words(box)));
  const std::string on = sheets.sheets.empty()
                             ? "no sheet of " + paper
                             : sheets::counted(sheets.count(), "sheet") + " of " + paper;
  lines.push_back(fmt::format("board of {}, {}", board_words(box), on));
  return lines;
}

}  // namespace quoin::pack
