// A comparison of two kinds.
// expected pattern: wanted_both_sides_of_the_same_kind|both sides must be of the same KIND
#include <tautline/core/units.hpp>

#ifdef MISTAKE
#define GIVEN 2 * N
#else
#define GIVEN 2 * mm
#endif

using namespace tautline;
using namespace tautline::units;

const bool below = 1 * mm < GIVEN;
