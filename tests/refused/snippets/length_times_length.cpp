// says: no match for .operator\*.
#include "base/units.h"

using namespace quoin;

#ifdef REFUSED
auto area = 3_mm * 2_mm;
#else
auto wider = 3_mm * 2.0;
#endif
