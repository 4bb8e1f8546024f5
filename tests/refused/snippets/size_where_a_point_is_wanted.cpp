// says: could not convert .*quoin::Size. to .quoin::Point.
#include "geometry/geometry.h"

using namespace quoin;

#ifdef REFUSED
Rect box = rect_between(Point{}, Size{1_mm, 2_mm});
#else
Rect box = rect_between(Point{}, Point{1_mm, 2_mm});
#endif
