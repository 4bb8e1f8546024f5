// says: cannot convert .quoin::Mm. to .quoin::Angle.
#include "geometry/geometry.h"

using namespace quoin;

#ifdef REFUSED
Affine turned_map = Affine::turn(90_mm);
#else
Affine turned_map = Affine::turn(Angle::degrees(90));
#endif
