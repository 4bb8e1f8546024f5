// says: could not convert .*quoin::Insets. to .quoin::Size.
#include "geometry/geometry.h"

using namespace quoin;

#ifdef REFUSED
Size other = turned(Insets::all(1_mm));
#else
Size other = turned(Size{1_mm, 2_mm});
#endif
