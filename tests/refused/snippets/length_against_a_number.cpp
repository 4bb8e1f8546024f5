// says: no match for .operator<.
#include "base/units.h"

using namespace quoin;

#ifdef REFUSED
bool thin = 3_mm < 1.0;
#else
bool thin = 3_mm < 1_mm;
#endif
