// A length's range cannot guard a force.
// expected pattern: wanted_a_range_of_the_same_kind|the range must be of the same KIND
#include <tautline/core/invalid_input.hpp>
#include <tautline/core/units.hpp>

#ifdef MISTAKE
#define GIVEN 0 * mm
#else
#define GIVEN 0 * N
#endif

using namespace tautline;
using namespace tautline::units;

void check(force<> pull) { require("pull", pull, more_than(GIVEN)); }
