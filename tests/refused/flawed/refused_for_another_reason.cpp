// says: no match for 'operator\*'
#include "base/units.h"

using namespace quoin;

#ifdef REFUSED
Mm width{unknown};
#else
Mm width{3};
#endif
