// Both are something over metres, and no more alike for it.
// expected pattern: wanted_both_sides_of_the_same_kind|both sides must be of the same KIND
#include <tautline/core/units.hpp>

#ifdef MISTAKE
#define GIVEN 1 * N_per_m
#else
#define GIVEN 1 * g_per_m
#endif

using namespace tautline;
using namespace tautline::units;

const bool same = 1 * g_per_m == GIVEN;
