#pragma once
#include "job/pictures/list_pictures.h"

namespace quoin::job {

/// The list for other programs: an object with `pictures`, `brief`, `good_ppi`, `least_ppi`
/// and `found`.
[[nodiscard]] Bytes pictures_report(const PictureList& list);

}  // namespace quoin::job
