// says: cannot convert .double. to .quoin::Angle.
#include "geometry/geometry.h"

using namespace quoin;

#ifdef REFUSED
Affine turned_map = Affine::turn(90.0);
#else
Affine turned_map = Affine::turn(Angle::degrees(90));
#endif
