// says: cannot convert .quoin::Point. to .quoin::Vec.
#include "geometry/geometry.h"

using namespace quoin;

#ifdef REFUSED
Affine moved = Affine::move(Point{1_mm, 2_mm});
#else
Affine moved = Affine::move(Vec{1_mm, 2_mm});
#endif
