// says: no match for .operator\+.
#include "base/units.h"

using namespace quoin;

#ifdef REFUSED
auto sum = 3_mm + 1.0;
#else
auto sum = 3_mm + 1_mm;
#endif
