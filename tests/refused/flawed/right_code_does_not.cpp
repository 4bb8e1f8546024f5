// says: error
#include "base/units.h"

using namespace quoin;

#ifdef REFUSED
Mm width = 3.0;
#else
Mm width = 3.0;
#endif
