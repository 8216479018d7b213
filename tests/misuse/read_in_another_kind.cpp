// A height is not so many newtons.
// expected: wanted_a_unit_of_the_quantitys_kind
#include <tautline/core/units.hpp>

#ifdef MISTAKE
#define GIVEN N
#else
#define GIVEN mm
#endif

using namespace tautline;
using namespace tautline::units;

double shown(length<> height) { return height / GIVEN; }
