// says: no match for .operator/.
#include "base/units.h"

using namespace quoin;

#ifdef REFUSED
auto times = 9.0 / 3_mm;
#else
double times = 9_mm / 3_mm;
#endif
