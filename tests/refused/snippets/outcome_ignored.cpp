// says: ignoring returned value of type .quoin::Outcome.
#include "base/result.h"

using namespace quoin;

#ifdef REFUSED
Outcome write_a_sheet();
void printed() { write_a_sheet(); }
#else
Outcome write_a_sheet();
bool printed() { return write_a_sheet().ok(); }
#endif
