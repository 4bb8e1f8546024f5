// says: cannot convert .quoin::Mm. to .double.
#include "base/units.h"

using namespace quoin;

#ifdef REFUSED
double ratio = 63.5_mm;
#else
double ratio = 63.5_mm / 1_mm;
#endif
