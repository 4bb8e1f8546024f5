#pragma once
#include <vector>

#include "press/measurement.h"

namespace quoin::press {

/// What a picture of a measurement is drawn from: how far the backs lie off their fronts, at places
/// all over the sheet. Millimetres, page frame of the front, seen from the front.
struct DriftPlace {
  Point at;
  Vec mean;                 ///< of the sheets: what is corrected
  std::vector<Vec> sheets;  ///< of each sheet that was measured; none when only the file is known
  /// How far a single sheet's back may lie from the mean with 95 in 100 in one direction, as
  /// `reach_of` has it: what stays.
  Mm reach;
};

struct Drift {
  std::vector<DriftPlace> places;
  Mm farthest;           ///< the longest `mean`
  double magnified = 1;  ///< so many times larger an arrow may be drawn without meeting the next
};

/// Four places along the shorter side of the profile's paper, five along the longer, 20 mm in.
/// `magnified` is the largest of some round numbers from 1 to 100 with which the longest of `mean`
/// plus `reach` and of `sheets` stays within 0.45 of the way to the next place.
[[nodiscard]] Drift drift_of(const Profile& profile, const std::vector<SheetMeasured>& sheets);

/// Where what is drawn on the two pages of a sheet comes to lie on the paper, seen from the front:
/// maps from each page's own frame, without the correction by the profile and with it.
struct Meeting {
  Affine front_before, back_before;
  Affine front_after, back_after;
};

/// Of a sheet on which the ink that belongs behind p was found at `back(p)`: the mean of the
/// profile, or one of the sheets that it was measured from. With F the front's scale about the
/// middle, B the way behind and C the correction: before, a front place p lies at F(p) and a back
/// place q at F(back(B(q))); after, at F(C(p)) and F(back(B(C(q)))). For the mean the two fall on
/// each other.
[[nodiscard]] Meeting meeting_of(const Profile& profile, const Affine& back);

/// `Profile::back` as a map on the profile's own paper.
[[nodiscard]] Affine mean_back(const Profile& profile);

}  // namespace quoin::press
