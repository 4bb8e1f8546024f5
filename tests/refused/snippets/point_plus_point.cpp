// says: no match for .operator\+.
#include "geometry/geometry.h"

using namespace quoin;

#ifdef REFUSED
auto sum = Point{1_mm, 2_mm} + Point{1_mm, 2_mm};
#else
auto moved = Point{1_mm, 2_mm} + Vec{1_mm, 2_mm};
#endif
