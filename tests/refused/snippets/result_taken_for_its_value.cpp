// says: cannot convert .quoin::Result<int>. to .int.
#include "base/result.h"

using namespace quoin;

#ifdef REFUSED
Result<int> copies_of_a_card();
int printed() { return copies_of_a_card(); }
#else
Result<int> copies_of_a_card();
int printed() { return copies_of_a_card().value(); }
#endif
