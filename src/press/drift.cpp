#include "press/drift.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "press/correction.h"
#include "press/sheet_layout.h"

namespace quoin::press {
namespace {

constexpr Mm grid_inset{20};
constexpr double room_for_an_arrow = 0.45;
constexpr std::array<double, 12> magnifications{1, 2, 3, 5, 8, 10, 15, 20, 30, 50, 75, 100};

Point middle_of(Size paper) { return {paper.width / 2, paper.height / 2}; }

}  // namespace

Affine mean_back(const Profile& profile) { return map_of(profile.back, middle_of(profile.paper)); }

Drift drift_of(const Profile& profile, const std::vector<SheetMeasured>& sheets) {
  const Size paper = profile.paper;
  const bool landscape = paper.width > paper.height;
  const int columns = landscape ? 5 : 4, rows = landscape ? 4 : 5;
  const Mm step_x = (paper.width - grid_inset * 2) / (columns - 1);
  const Mm step_y = (paper.height - grid_inset * 2) / (rows - 1);
  const Affine back = mean_back(profile);
  Drift drift;
  Mm longest;
  for (int i = 0; i < columns * rows; ++i) {
    DriftPlace place;
    place.at = {grid_inset + step_x * (i % columns), grid_inset + step_y * (i / columns)};
    place.mean = back(place.at) - place.at;
    for (const SheetMeasured& sheet : sheets) {
      place.sheets.push_back(sheet.back(place.at) - place.at);
      longest = std::max(longest, length(place.sheets.back()));
    }
    place.reach = reach_of(profile.spread, length(place.at - middle_of(paper)), profile.within);
    drift.farthest = std::max(drift.farthest, length(place.mean));
    longest = std::max(longest, length(place.mean) + place.reach);
    drift.places.push_back(std::move(place));
  }
  const Mm room = std::min(step_x, step_y) * room_for_an_arrow;
  for (const double times : magnifications) {
    if (longest * times <= room) drift.magnified = times;
  }
  return drift;
}

Meeting meeting_of(const Profile& profile, const Affine& back) {
  Parts size;
  size.scale_x = profile.scale_x;
  size.scale_y = profile.scale_y;
  const Affine printed = map_of(size, middle_of(profile.paper));
  const Affine behind = turned_over(profile.paper, profile.flip);
  const Affine back_printed = then(then(behind, back), printed);
  const Correction maps = correction(profile, profile.paper, behind);
  return {printed, back_printed, then(maps.front, printed), then(maps.back, back_printed)};
}

}  // namespace quoin::press
