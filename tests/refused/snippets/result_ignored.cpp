// says: ignoring returned value of type .quoin::Result<int>.
#include "base/result.h"

using namespace quoin;

#ifdef REFUSED
Result<int> copies_of_a_card();
void counted() { copies_of_a_card(); }
#else
Result<int> copies_of_a_card();
bool counted() { return copies_of_a_card().ok(); }
#endif
