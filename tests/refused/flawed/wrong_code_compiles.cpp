// says: error
#include "base/units.h"

using namespace quoin;

#ifdef REFUSED
Mm width{4};
#else
Mm width{3};
#endif
